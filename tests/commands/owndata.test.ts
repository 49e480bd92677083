/**
 * What a shop may do to the data of a workshop, and what the program as it is installed answers: the file is one that it
 * reads rightly, or it is refused by name. Nothing here knows of any module.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const MAIN = resolve(import.meta.dirname, '../../dist/main.js');
const SMALL = resolve(import.meta.dirname, '../errors/_small');
const W52 = 'shared/profile-sets/w52.yaml';
const JOB = 'shared/jobs/own.yaml';
const PROCEDURE = 'procedures/casement.yaml';

interface Answer {
  readonly code: number;
  readonly out: string;
  readonly all: string;
}

const folder = mkdtempSync(join(tmpdir(), 'pinchrod-own-'));
let clean = '';
let made = 0;
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function pinchrod(cwd: string, args: readonly string[], lines: readonly object[] = []): Answer {
  const env = { ...process.env, NO_COLOR: '1', LC_ALL: 'C.UTF-8', PINCHROD_WORKSHOP: '' };
  const input = lines.map((line) => `${JSON.stringify(line)}\n`).join('');
  const { status, stdout, stderr } = spawnSync(process.execPath, [MAIN, ...args], {
    cwd,
    env,
    input,
    encoding: 'utf8',
  });
  return { code: status ?? -1, out: stdout, all: stdout + stderr };
}

/** A workshop of its own for one case. */
class Shop {
  readonly root = join(folder, `shop-${++made}`);
  constructor() {
    cpSync(clean, this.root, { recursive: true });
  }
  run(...args: string[]): Answer {
    return pinchrod(this.root, args);
  }
  feed(unit: string, ...lines: object[]): Record<string, unknown>[] {
    const { out } = pinchrod(this.root, ['feed', unit], lines);
    return out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
  }
  put(file: string, text: string | Uint8Array): this {
    writeFileSync(join(this.root, file), text);
    return this;
  }
  change(file: string, was: string, is: string): this {
    const text = readFileSync(join(this.root, file), 'utf8');
    if (!text.includes(was)) throw new Error(`${file} does not hold ${was}`);
    return this.put(
      file,
      text.replace(was, () => is),
    );
  }
  problems(...files: string[]): { id: string; line: number; text: string; todo: string }[] {
    const { out } = this.run('lint', '--json', ...files);
    const read = JSON.parse(out) as { problems?: unknown } | unknown[];
    return (Array.isArray(read) ? read : read.problems) as never;
  }
}

beforeAll(() => {
  clean = join(folder, 'clean');
  const { code, all } = pinchrod(folder, ['init', clean, '--demonstration']);
  if (code !== 0) throw new Error(all);
});

const job = (layout: string, more = ''): string => `format: pinchrod-job 1
name: own
profile_set: w52
procedure: casement
glass: 4-16-4
${more}units:
  - {mark: A, width: 900, height: 1200, layout: ${layout}}
`;
const SIDE_HUNG = '{light: side-hung, hinge: left, viewed_from: outside, opens: out}';
const INWARD = SIDE_HUNG.replace('opens: out', 'opens: in');

interface Part {
  readonly role: string;
  readonly length: number;
  readonly marks: readonly { readonly kind: string; readonly at: number }[];
}
const partsOf = (shop: Shop): Part[] => {
  const { out } = shop.run('setout', 'own', 'A-1', '--json');
  const read = JSON.parse(out) as { units: { parts: Part[] }[] };
  return read.units[0]!.parts;
};
/** Where the marks of a kind lie along the part of that role, as the table of marks prints them. */
function places(shop: Shop, role: string, kind: string): number[] {
  const part = partsOf(shop).find((each) => each.role === role)!;
  return part.marks.filter((mark) => mark.kind === kind).map(({ at }) => at);
}

describe('a window that opens inwards', () => {
  const inward = (): Shop => new Shop().change(W52, 'opens: [out]', 'opens: [out, in]').put(JOB, job(INWARD));

  it('is inward on the board as in the set-out', () => {
    const board = inward().run('board').out;
    expect(board.split('own')[1]).toContain('opens in');
  });
  it('is not drawn like one that opens outwards', () => {
    const shop = inward();
    shop.run('setout', 'own', 'A-1', '--svg', 'in.svg');
    shop.put(JOB, job(SIDE_HUNG)).run('setout', 'own', 'A-1', '--svg', 'out.svg');
    const [into, out] = ['in.svg', 'out.svg'].map((name) => readFileSync(join(shop.root, name), 'utf8'));
    expect(into).not.toBe(out);
    // The triangle of a light that opens towards who looks at it is drawn full, of one that opens away dashed.
    const dashed = (drawing: string | undefined) =>
      drawing!.match(/<line[^>]*stroke-dasharray/g)?.length ?? 0;
    expect([dashed(into), dashed(out)]).toEqual([2, 0]);
  });
  it('is known to formulas of the set', () => {
    const shop = inward().change(
      W52,
      'sash.h: sight.h + 2 * overlap',
      "sash.h: 'opens_in ? sight.h + 2 * overlap : sight.h + 2 * overlap'",
    );
    expect(shop.problems(W52)).toEqual([]);
  });
});

describe('a sill between its jambs', () => {
  const butt = (start: string): Shop => {
    const shop = new Shop().put(JOB, job('{light: fixed}'));
    for (const [role, side] of [
      ['head', 'top'],
      ['sill', 'bottom'],
    ])
      shop.change(
        W52,
        `box: frame, side: ${side}, length: frame.w, ends: [45, 45]`,
        `box: frame, side: ${side}, ${start}length: frame.w - 2 * frame_face, ends: [90, 90]${role === 'sill' ? '' : ''}`,
      );
    for (const side of ['left', 'right'])
      shop.change(
        W52,
        `box: frame, side: ${side}, length: frame.h, ends: [45, 45]`,
        `box: frame, side: ${side}, length: frame.h, ends: [90, 90]`,
      );
    return shop;
  };
  it('has its marks from its own end where the set says where it begins', () => {
    const shop = butt('start: frame_face, ');
    // By hand: the light begins at the sill's own end (52 of 52), so 60 from the sight line is 60 from the end.
    expect(places(shop, 'frame-sill', 'drain-inner')[0]).toBeCloseTo(60, 6);
  });
  it('is refused where the set does not say where it begins', () => {
    const { code, all } = butt('').run('setout', 'own');
    expect(code).toBe(1);
    expect(all).toContain('setout.part-start');
  });
});

describe('numbers that are not there', () => {
  it('a mark on a part that the set has not', () => {
    const shop = new Shop().change(W52, 'on: addon.bottom, ', 'on: apron.bottom, ');
    const problems = shop.problems(W52);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.text).toContain('apron');
  });
  it('a sentence that asks for marks of a kind that the set does not make', () => {
    const text = readFileSync(join(clean, W52), 'utf8');
    const kept = text.split('\n').filter((line) => !line.includes('{kind: drain-outer, per: light'));
    const problems = new Shop().put(W52, kept.join('\n')).problems();
    expect(problems.map(({ id }) => id)).toEqual(['procedure.value']);
    expect(problems[0]!.text).toContain('frame.drains_outer');
  });
  it('keeps that no part gets', () => {
    const text = readFileSync(join(clean, W52), 'utf8');
    const shop = new Shop().put(
      W52,
      text
        .split('\n')
        .filter((line) => !line.includes('{kind: keep,'))
        .join('\n'),
    );
    expect(
      shop
        .problems()
        .map(({ text: said }) => said)
        .join('\n'),
    ).toMatch(/keep/);
    const shown = shop.run('lint').all;
    expect(shown).not.toMatch(/ at {2}mm/);
  });
});

describe('what a procedure reads of the set', () => {
  it('a size, a part and an article of its own', () => {
    const sentence =
      '\'The head of {unit.article["frame-head"]} is {mm(unit.cut["frame-head"])} of {mm(unit.size["frame.w"])}.\'';
    const shop = new Shop().change(PROCEDURE, '        do:\n', `        do:\n          - ${sentence}\n`);
    expect(shop.problems(PROCEDURE)).toEqual([]);
  });
});

describe('a unit under way and its files of now', () => {
  /** One cut length answered: 0.5 over, where 0.5 is allowed. */
  const begun = (): Shop => {
    const shop = new Shop();
    cpSync(SMALL, shop.root, { recursive: true });
    shop.feed(
      'S01-1',
      { do: 'person', person: 'jb' },
      { do: 'instrument', instrument: 'T2' },
      { do: 'answer', check: 'cut/length', value: '900.5' },
      { do: 'answer', check: 'cut/batch', value: 'B1' },
      { do: 'answer', check: 'cut/photo', value: 'yes', evidence: ['inbox/p.png'] },
    );
    return shop;
  };
  const LIMIT = '  cut.length:\n    title: Cut piece, length\n    of: deviation\n    within: 0.5';
  it('a tightened limit re-opens what it judged', () => {
    const shop = begun().change('shared/limits.yaml', LIMIT, LIMIT.replace('0.5', '0.3'));
    const args = ['revise', 'S01-1', '--person', 'mv', '--reason', 'tighter'];
    expect(shop.run(...args).all).toMatch(/0\.3/);
    expect(shop.run(...args).all).toContain('Cut it');
  });
  it('other words re-open nothing', () => {
    const shop = begun().change('procedures/small.yaml', 'do: [Cut it.]', 'do: [Saw it to length.]');
    expect(shop.run('revise', 'S01-1').all).not.toContain('Cut it');
  });
});

describe('beads by thickness', () => {
  it('the cut list has the bead of the table', () => {
    const shop = new Shop()
      .put(JOB, job('{light: fixed}').replace('w52', 'k70').replace('4-16-4', '4-12-4-12-4'))
      .run('setout', 'own', 'A-1', '--cut').out;
    // 4 + 12 + 4 + 12 + 4 = 36 mm; the table of the set says K70-52 from 35.5 to 36.5.
    expect(shop).toContain('K70-52');
    expect(shop).not.toContain('K70-50');
  });
});

describe('what lint says of a profile set', () => {
  const cases: [what: string, was: string, is: string, says: RegExp][] = [
    [
      'a role twice on one member',
      'role: frame-sill, says: frame sill',
      'role: frame-head, says: frame sill',
      /frame-head/,
    ],
    ['a face below nothing', 'frame_face: {value: 52', 'frame_face: {value: -62', /-62|frame_face|face/],
    ['fewer than no pieces', 'profile: W52-D, length', 'profile: W52-D, quantity: -1, length', /-1|quantity/],
    ['a part of no length', 'length: divider.length, ends', 'length: 0, ends', /divider|length/],
    [
      'kilograms added to millimetres',
      'sash.h: sight.h + 2 * overlap',
      'sash.h: sight.h + 2 * overlap + kg_frame_cleats',
      /kg/,
    ],
    [
      'a condition that never comes true',
      'ends: [90, 90], kg_per_m: kg_divider}',
      'ends: [90, 90], kg_per_m: kg_divider, when: unit.height > 20000.0}',
      /No unit ever meets/,
    ],
  ];
  it.each(cases)('%s', (_what, was, is, says) => {
    const problems = new Shop().change(W52, was, is).problems();
    expect(problems.map(({ text, todo }) => `${text} ${todo}`).join('\n')).toMatch(says);
  });
});

describe('steps of windows that are rare', () => {
  it.each(['unit.height > 2200.0', 'unit.escape && unit.restrictor'])('%s', (when) => {
    const file = readFileSync(join(clean, PROCEDURE), 'utf8');
    const first = /^( +)- id: order\.\S+\n/m.exec(file)!;
    const shop = new Shop().put(PROCEDURE, file.replace(first[0], `${first[0]}${first[1]}  when: ${when}\n`));
    expect(
      shop
        .problems(PROCEDURE)
        .map(({ text }) => text)
        .join('\n'),
    ).not.toMatch(/No kind of unit/);
  });
});

describe('a product that is no window', () => {
  it('is called by its own name', () => {
    const shop = new Shop()
      .change(W52, 'opens: [out]', 'product: {unit: hatch, light: pane}\nopens: [out]')
      .put(JOB, job('{light: fixed}'));
    const { out } = shop.run('record', 'A-1', '--format', 'text');
    expect(out.toLowerCase()).toContain('quality record: hatch a-1');
    expect(out.toLowerCase()).not.toContain('window a-1');
  });
});

describe('one fault, one message, a way out', () => {
  it('a tab', () => {
    const shop = new Shop().put(JOB, job('{light: fixed}').replace('  - {mark', '\t- {mark'));
    const problems = shop.problems(JOB);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.todo).toMatch(/spaces/);
  });
  it('a misspelt key has the nearest one', () => {
    const shop = new Shop().put(JOB, job('{light: fixed}').replace('procedure:', 'procedur:'));
    const problems = shop.problems(JOB);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.todo).toContain('"procedure"');
  });
});

describe('feed', () => {
  const begun = (): Shop => {
    const shop = new Shop();
    cpSync(SMALL, shop.root, { recursive: true });
    return shop;
  };
  it('tells the verdict of what was answered', () => {
    const answers = begun().feed(
      'S01-1',
      { do: 'person', person: 'jb' },
      { do: 'instrument', instrument: 'T2' },
      { do: 'answer', check: 'cut/length', value: '905' },
      { do: 'answer', check: 'cut/length', value: '905', confirmed: true },
    );
    expect(answers.map(({ verdict }) => verdict)).toContain('fail');
  });
  it('shows an example that can be typed', () => {
    const shop = new Shop();
    const help = shop.run('feed', '--help').out;
    const check = /"check":"([^"]+)"/.exec(help)![1]!;
    const [answer] = shop.feed('P02-1', { do: 'person', person: 'jb' }).slice(-1);
    expect((answer!.next as { check: string }).check).toBe(check);
  });
});

describe('JSON Schemas', () => {
  const schema = (name: string): Record<string, unknown> =>
    JSON.parse(readFileSync(join(clean, `shared/schemas/${name}.json`), 'utf8')) as Record<string, unknown>;
  it('of a job says what a layout is', () => {
    expect(JSON.stringify(schema('job'))).toContain('viewed_from');
  });
  it('of set-ups is there, and every authoring schema describes its keys', () => {
    for (const name of ['setups', 'job', 'profile-set', 'procedure', 'limits', 'instruments', 'people'])
      expect(JSON.stringify(schema(name)), name).toContain('"description"');
  });
});

describe('a table from a spreadsheet', () => {
  const HEAD = 'profile_set;procedure;mark;width;height;room;glass;light_1';
  const row = (width: string, room = 'hall', glass = '4-16-4') =>
    `w52;casement;A;${width};1200;${room};${glass};fixed`;
  const table = (text: string | Uint8Array): Shop => new Shop().put('shared/jobs/own.csv', text);

  it('in Windows-1252', () => {
    const shop = table(Buffer.from(`${HEAD}\n${row('900', 'Küche')}\n`, 'latin1'));
    expect(shop.run('setout', 'own').all).not.toContain('\ufffd');
    expect(shop.problems('shared/jobs/own.csv')).toEqual([]);
  });
  it('a thousands point is asked about', () => {
    const { code, all } = table(`${HEAD}\n${row('1.400')}\n`).run('setout', 'own');
    expect(code).not.toBe(0);
    expect(all).toMatch(/1400/);
  });
  it('with the line that names its separator', () => {
    expect(table(`sep=;\n${HEAD}\n${row('900')}\n`).problems('shared/jobs/own.csv')).toEqual([]);
  });
  it('with German headings', () => {
    const head = 'Profilsatz;Arbeitsanweisung;Position;Breite;Höhe;Raum;Glas;Feld 1';
    expect(
      table(`${head}\n${row('900').replace('fixed', 'fest')}\n`).problems('shared/jobs/own.csv'),
    ).toEqual([]);
  });
  it('glass that a spreadsheet made a date of is refused', () => {
    const { code, all } = table(`${HEAD}\n${row('900', 'hall', '04. Dez')}\n`).run('setout', 'own');
    expect(code).not.toBe(0);
    expect(all).toContain('04. Dez');
  });
});

describe('the record of a unit that nobody began', () => {
  it('names its job, and a global option stands on either side of the verb', () => {
    const shop = new Shop();
    const before = pinchrod(folder, ['--workshop', shop.root, 'record', 'P02-1', '--format', 'text']);
    const after = pinchrod(folder, ['record', 'P02-1', '--format', 'text', '--workshop', shop.root]);
    expect(before.out).toContain('pier-house');
    expect(before.out).not.toContain('job ,');
    expect(after.out.length).toBeGreaterThan(0);
    expect(after.code).toBe(before.code);
  });
});
