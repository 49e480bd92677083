/** Sign-off: who may, on what evidence, how it runs out, and that the bench's levels follow. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { HtmlValidate } from 'html-validate';
import { describe, expect, it } from 'vitest';
import { parseProcedure } from '../../src/procedure/parse.js';
import {
  type PracticeBody,
  type PracticeEvent,
  type SignoffBody,
  type SignoffEvent,
  signoffSchema,
} from '../../src/training/events.js';
import { type SignoffWorld, type UnitWork, type Work, workedAt } from '../../src/training/evidence.js';
import { personHtml, personPage, personText } from '../../src/training/personpage.js';
import {
  decideObserved,
  decideSignoff,
  decideWithdraw,
  type SignoffDecision,
} from '../../src/training/signoff.js';
import { levelsFrom, stagePrint, standingOf } from '../../src/training/standing.js';
import { canonicalText, chainEvent, checkLine, verifyChain } from '../../src/unit/chain.js';
import { levelOf } from '../../src/unit/people.js';
import type { Level, Person } from '../../src/unit/types.js';
import { demonstration, REPOSITORY } from './shop.js';

const shop = demonstration();
const file = 'procedures/casement.yaml';
const text = readFileSync(join(REPOSITORY, file), 'utf8');
const parsed = (of: string) => {
  const read = parseProcedure({ file, text: of });
  if (!read.ok) throw new Error(JSON.stringify(read.problems[0]));
  return read.value;
};
const procedure = parsed(text);
const STAGE = 'frame-square';
const START = '2026-03-02T07:00:00.000Z';
const days = (n: number) => new Date(Date.parse(START) + n * 86_400_000).toISOString();

/** Invented people: a manager, a second assessor, a fitter, an apprentice. */
const people: Person[] = [
  { id: 'mg', initials: 'MG', name: 'Mara Gill', levels: { all: 5 } },
  { id: 'as', initials: 'AS', name: 'Ari Sand', levels: { all: 5 } },
  { id: 'ft', initials: 'FT', name: 'Flo Tarn', levels: { all: 3 } },
  { id: 'ap', initials: 'AP', name: 'Abe Pell', levels: { all: 1 } },
];
const works = (n: number, passed: number, last = START): readonly UnitWork[] =>
  Array.from({ length: n }, (_, i) => ({
    unit: `X${i}`,
    checks: 10,
    firstPass: passed,
    supervised: true,
    last,
  }));
const workOfAp = (units: readonly UnitWork[]): Work => new Map([['ap', new Map([[STAGE, units]])]]);
const drill = (passed: boolean): PracticeEvent =>
  chainEvent(
    {
      kind: 'drilled',
      drill: 'squaring',
      seed: 3,
      points: passed ? 88 : 40,
      passed,
      ended: 'right',
    } as PracticeBody,
    { at: START, by: 'ap', bench: 'b' },
  );

function world(over: Partial<SignoffWorld> = {}): SignoffWorld {
  return {
    workshop: { ...shop.workshop.rules, people },
    procedure,
    events: [],
    work: new Map(),
    practice: () => [],
    now: START,
    ...over,
  };
}
const problem = (decision: SignoffDecision) => ('problem' in decision ? decision.problem.id : 'none');
const body = (decision: SignoffDecision): SignoffBody => {
  if ('problem' in decision) throw new Error(decision.problem.text);
  return decision.body;
};
function add(events: readonly SignoffEvent[], what: SignoffBody, by: string, at: string): SignoffEvent[] {
  const before =
    events.length > 0
      ? events
      : [chainEvent({ kind: 'signoff-opened', of: 'Works', program: '0' } as const, { at, by, bench: 'b' })];
  return [...before, chainEvent(what, { at, by, bench: 'b' }, before.at(-1))];
}
/** Notes, units and a drill as they should be, signed up to a level by two assessors in turn. */
function signedUpTo(level: Level, at = START): { events: SignoffEvent[]; world: SignoffWorld } {
  let events = add(
    [],
    body(decideObserved({ person: 'ap', stage: STAGE, text: 'Squared it and said why' }, 'ft', world())),
    'ft',
    at,
  );
  const now = (): SignoffWorld =>
    world({ events, work: workOfAp(works(12, 10)), practice: () => [drill(true)], now: at });
  for (let each = 2; each <= level; each++)
    events = add(
      events,
      body(
        decideSignoff({ person: 'ap', stage: STAGE, level: each as Level }, each % 2 ? 'mg' : 'as', now()),
      ),
      each % 2 ? 'mg' : 'as',
      at,
    );
  return { events, world: now() };
}
const levelNow = (events: readonly SignoffEvent[], now: string, of = procedure, worked?: string): Level =>
  levelOf(
    levelsFrom(events, people, now, of, worked === undefined ? {} : { workedAt: () => [worked] }).find(
      (each) => each.id === 'ap',
    )!,
    STAGE,
  );

describe('who may', () => {
  it('nobody assesses themselves, and only level 5 signs', () => {
    expect(problem(decideSignoff({ person: 'mg', stage: STAGE, level: 5 }, 'mg', world()))).toBe(
      'train.self',
    );
    expect(problem(decideSignoff({ person: 'ap', stage: STAGE, level: 2 }, 'ft', world()))).toBe(
      'train.not-assessor',
    );
    expect(problem(decideObserved({ person: 'ft', stage: STAGE, text: 'x' }, 'ap', world()))).toBe(
      'train.not-trainer',
    );
    expect(problem(decideObserved({ person: 'zz', stage: STAGE, text: 'x' }, 'ft', world()))).toBe(
      'train.person',
    );
    expect(problem(decideObserved({ person: 'ap', stage: 'no-such', text: 'x' }, 'ft', world()))).toBe(
      'train.stage',
    );
  });
  it('nobody signs after their own date', () => {
    const old = people.map((each) => (each.id === 'mg' ? { ...each, validUntil: '2026-03-01' } : each));
    const late = { ...world(), workshop: { ...shop.workshop.rules, people: old } };
    const options = { person: 'ap', stage: STAGE, level: 2, waive: 'Came as a fitter' } as const;
    expect(problem(decideSignoff(options, 'mg', late))).toBe('train.not-assessor');
    expect(problem(decideSignoff(options, 'as', late))).toBe('none');
    const refused = decideSignoff(options, 'ft', late);
    expect('problem' in refused && refused.problem.todo).toBe('Let one of these do it: AS.');
  });
  it('a refusal names who could', () => {
    const refused = decideSignoff({ person: 'ap', stage: STAGE, level: 2 }, 'ft', world());
    expect('problem' in refused && refused.problem.todo).toContain('MG, AS');
  });
});

describe('evidence', () => {
  it('level 3 takes ten units, nine checks of ten at the first answer, a drill passed, another assessor', () => {
    const { events } = signedUpTo(2);
    const at = (over: Partial<SignoffWorld>, by = 'mg') =>
      decideSignoff({ person: 'ap', stage: STAGE, level: 3 }, by, world({ events, ...over }));
    const whole = { work: workOfAp(works(10, 9)), practice: () => [drill(true)] };
    expect(problem(at(whole))).toBe('none');
    const lacks: [Partial<SignoffWorld>, RegExp, string?][] = [
      [{ ...whole, work: workOfAp(works(9, 9)) }, /10 units under supervision in this stage \(there are 9\)/],
      [{ ...whole, work: workOfAp(works(10, 8)) }, /90 % .* \(it is 80 %\)/],
      [{ ...whole, practice: () => [drill(false)] }, /a drill that was passed/],
      [
        { ...whole, work: workOfAp(works(10, 9).map((one) => ({ ...one, supervised: false }))) },
        /there are 0/,
      ],
      [whole, /other than the one who signed level 2/, 'as'],
    ];
    for (const [over, wants, by] of lacks) {
      const refused = at(over, by);
      expect('problem' in refused && refused.problem.text).toMatch(wants);
    }
  });
  it('levels are not skipped, and a waiver is kept with its reason', () => {
    expect(problem(decideSignoff({ person: 'ap', stage: STAGE, level: 4 }, 'mg', world()))).toBe(
      'train.evidence',
    );
    const waived = body(
      decideSignoff(
        { person: 'ap', stage: STAGE, level: 4, waive: 'Ten years at another bench' },
        'mg',
        world(),
      ),
    );
    expect(waived).toMatchObject({ waived: { reason: 'Ten years at another bench' } });
    expect(waived.kind === 'signed-off' && waived.waived?.missing.join('; ')).toContain(
      'level 3 (alone) first',
    );
  });
  it('what was signed stays with the event', () => {
    const { events } = signedUpTo(3);
    const last = events.at(-1)!;
    expect(last.kind === 'signed-off' && last.evidence).toMatchObject({
      notes: [2],
      drills: [{ drill: 'squaring', points: 88 }],
    });
    expect(last.kind === 'signed-off' && last.evidence.units).toHaveLength(12);
  });
});

describe('the chain', () => {
  it('is the same as a unit journal: whole as written, and a changed level is found', () => {
    const { events } = signedUpTo(4);
    for (const event of events) expect(signoffSchema.safeParse(event).success).toBe(true);
    const lines = events.map((event) => canonicalText(event));
    expect(verifyChain(lines.map(checkLine))).toEqual([]);
    for (const [i, line] of lines.entries()) {
      if (!line.includes('"level":3')) continue;
      const forged = [...lines];
      forged[i] = line.replace('"level":3', '"level":5');
      expect(verifyChain(forged.map(checkLine))[0]).toMatchObject({ kind: 'changed', line: i + 1 });
    }
    expect(verifyChain(lines.toSpliced(2, 1).map(checkLine))[0]?.kind).toBe('missing');
  });
});

describe('what the bench honours', () => {
  it('the signed level, in that stage alone', () => {
    const { events } = signedUpTo(4);
    const [ap] = levelsFrom(events, people, START, procedure).filter((each) => each.id === 'ap');
    expect(levelOf(ap!, STAGE)).toBe(4);
    expect(levelOf(ap!, 'glaze')).toBe(1);
    expect(levelsFrom([], people, START, procedure)).toEqual(people);
  });
  it('runs out after 270 days without work in the stage, and work keeps it', () => {
    const { events } = signedUpTo(3);
    expect(levelNow(events, days(270), procedure, START)).toBe(3);
    expect(levelNow(events, days(271), procedure, START)).toBe(2);
    expect(levelNow(events, days(271), procedure, days(100))).toBe(3);
    // Nobody said when the person worked last: absence is not judged.
    expect(levelNow(events, days(4000))).toBe(3);
  });
  it('runs out when the procedure changes in that stage, not when it changes elsewhere', () => {
    const { events } = signedUpTo(3);
    const inStage = procedure.stages.find((stage) => stage.id === STAGE)!.steps[0]!.why.text;
    const elsewhere = procedure.stages.find((stage) => stage.id === 'glaze')!.steps[0]!.why.text;
    expect(text.split(inStage)).toHaveLength(2);
    expect(text.split(elsewhere)).toHaveLength(2);
    const changed = parsed(text.replace(inStage, `${inStage} Look twice.`));
    const other = parsed(text.replace(elsewhere, `${elsewhere} Look twice.`));
    expect(levelNow(events, days(1), changed)).toBe(2);
    expect(levelNow(events, days(1), other)).toBe(3);
    // A blank line moves every place in the file and changes nothing that is done.
    expect(stagePrint(parsed(`# moved\n${text}`), STAGE)).toBe(stagePrint(procedure, STAGE));
    const standing = standingOf(people[3]!, STAGE, events, { now: days(1), procedure: changed });
    expect(standing).toMatchObject({ from: 'expired', level: 2 });
    expect(standing.why.join()).toContain('to be signed anew');
  });
  it('what ran out is renewed at its own level, without climbing again', () => {
    const signed = signedUpTo(3);
    const now = days(300);
    const back = { ...signed.world, now };
    expect(workedAt(back.work, 'ap', STAGE)[0]).toBe(START);
    const renewed = body(decideSignoff({ person: 'ap', stage: STAGE, level: 3 }, 'mg', back));
    expect(levelNow(add(signed.events, renewed, 'mg', now), days(301), procedure, START)).toBe(3);
  });
  it('a withdrawal takes the level down to supervised, with its reason; a new signature lifts it', () => {
    const signed = signedUpTo(3);
    const out = add(
      signed.events,
      body(
        decideWithdraw(
          { person: 'ap', stage: STAGE, reason: 'Forced a cured corner twice' },
          'mg',
          signed.world,
        ),
      ),
      'mg',
      days(1),
    );
    expect(levelNow(out, days(1))).toBe(2);
    expect(
      problem(
        decideWithdraw({ person: 'ap', stage: STAGE, reason: 'again' }, 'mg', {
          ...signed.world,
          events: out,
        }),
      ),
    ).toBe('train.nothing-to-withdraw');
    const again = add(
      out,
      body(decideSignoff({ person: 'ap', stage: STAGE, level: 3 }, 'mg', { ...signed.world, events: out })),
      'mg',
      days(2),
    );
    expect(levelNow(again, days(2))).toBe(3);
  });
  it('an assessor whose own sign-off ran out may not sign', () => {
    const { events } = signedUpTo(5);
    const late = world({ events, now: days(400), work: workOfAp(works(12, 10)) });
    expect(problem(decideObserved({ person: 'ft', stage: STAGE, text: 'x' }, 'ap', late))).toBe(
      'train.not-trainer',
    );
    expect(
      problem(decideObserved({ person: 'ft', stage: STAGE, text: 'x' }, 'ap', { ...late, now: days(2) })),
    ).toBe('none');
  });
});

describe('the page of a person', () => {
  it('says what they may do, on what evidence, and what is next', async () => {
    const { world: signed, events } = signedUpTo(3);
    const page = personPage(people[3]!, { ...signed, events });
    const lines = personText(page).join('\n');
    expect(lines).toMatch(/Square the frame: level 3, alone \(signed\)/);
    expect(lines).toContain('12 units under supervision');
    expect(lines).toContain('120 of 120 checks passed at the first answer');
    expect(lines).toMatch(/Next: level 4, may release: the evidence is there/);
    expect(lines).toMatch(/Cut the frame side: level 1, observed \(by the people file\)/);
    const html = personHtml({ ...page, person: { ...page.person, name: 'Abe <b>Pell</b> & Co' } });
    expect(html).toContain('Abe &lt;b&gt;Pell&lt;/b&gt; &amp; Co');
    const report = await new HtmlValidate({ extends: ['html-validate:recommended'] }).validateString(html);
    expect(
      report.results.flatMap((result) =>
        result.messages.map((message) => `${message.line}: ${message.message}`),
      ),
    ).toEqual([]);
  });
});
