/** Steps in the language of whoever is at the bench, over a real workshop in a folder; and a record that does not know of it. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { run as board } from '../../src/commands/board.js';
import { readerOf } from '../../src/commands/reader.js';
import { realPorts } from '../../src/session/workshopports.js';
import { keysFor } from '../../src/tui/keyscript.js';
import { type Core, makeCore } from '../../src/tui/loop.js';
import { headerLines } from '../../src/tui/parts/bars.js';
import { releaseLines } from '../../src/tui/screens/release.js';
import { listOf } from '../../src/tui/screens/screens.js';
import { handoverLines } from '../../src/tui/screens/stages.js';
import { stepView } from '../../src/tui/screens/step.js';
import { whyScreenLines } from '../../src/tui/screens/why.js';
import { answerText } from '../../src/tui/theme.js';
import { told } from '../../src/tui/words/told.js';
import { nextMove } from '../../src/unit/autopilot.js';
import type { JournalEvent } from '../../src/unit/events.js';
import type { DecisionContext } from '../../src/unit/types.js';
import { freshWorkshop } from './terminal.js';

const CTRL_A = '\x01';
const RIGHT = '\u001b[C';
const BY_STAGE = '\u0006';
const THEME = { colours: 'none', ascii: true } as const;
const leave: (() => void)[] = [];
afterEach(() => {
  for (const each of leave.splice(0).reverse()) each();
});

interface Bench {
  readonly core: Core;
  readonly folder: string;
  readonly text: () => string;
  readonly journal: (unit: string) => JournalEvent[];
}

function benchOn(unit: string, change: (folder: string) => void = () => {}): Bench {
  const { folder, remove } = freshWorkshop();
  change(folder);
  let at = Date.parse('2026-11-24T08:00:00.000Z');
  const clock = () => (at += 20_000);
  const ports = realPorts({ workshop: folder, clock });
  if (!ports.ok) throw new Error(JSON.stringify(ports.problems));
  leave.push(remove, () => ports.value.close());
  const core = makeCore(ports.value);
  core.open(`pier-house/${unit}`);
  const words = (lines: readonly (readonly { readonly text: string }[])[]): string =>
    lines.map((line) => line.map(({ text }) => text).join('')).join('\n');
  return {
    core,
    folder,
    text: () =>
      words([
        ...headerLines(core.state(), core.world(), 110, THEME),
        ...stepView(core.state(), core.world(), 110, 40, THEME).lines,
        ...whyScreenLines(core.state(), core.world(), 110),
      ]),
    journal: (of) =>
      readFileSync(join(folder, 'logs/pier-house', `${of}.jsonl`), 'utf8')
        .split('\n')
        .filter((line) => line !== '')
        .map((line) => JSON.parse(line) as JournalEvent),
  };
}

describe('a person who reads German', () => {
  it('is told title, stage, sentences, reason and check in German; the next person in English', () => {
    const { core, text } = benchOn('P03-1');
    core.feed('JB\r');
    expect(text()).toContain('Read the papers of the order');
    core.feed('LB\r');
    const german = text();
    for (const part of [
      'AUFTRAGSPRÜFUNG',
      'Unterlagen des Auftrags lesen',
      'Auftrag, Zeichnung und Arbeitsmappe nebeneinander legen.',
      'Stimmen Position und Stand',
      'Alles Weitere wird nach diesen Unterlagen gemacht.',
      'Ein alter Stand liegt noch in der Mappe.',
    ])
      expect(german).toContain(part);
    expect(german).not.toContain('Read the papers');
    core.feed('JB\r');
    expect(text()).toContain('Read the papers of the order');
    expect(text()).not.toContain('Unterlagen');
  });

  it('may switch by a key, and the switch goes with the person', () => {
    const { core, text } = benchOn('P03-1');
    core.feed(CTRL_A);
    expect(core.state().note?.text).toBe('Die Schritte sind auf Deutsch.');
    expect(text()).toContain('Unterlagen des Auftrags lesen');
    core.feed('JB\r');
    expect(text()).toContain('Read the papers');
    core.feed('LB\r');
    core.feed(CTRL_A);
    expect(core.state().note?.text).toBe('The steps are in English.');
    expect(text()).toContain('Read the papers');
  });

  it("reads light, packers and lift in the translation's phrases", () => {
    const { core } = benchOn('P03-1');
    core.feed('LB\r');
    const route = core.world().open!.state.route;
    const step = (id: string) => route.steps.find((each) => each.id === id)!;
    expect(step('hang.sash@L1').do.join(' ')).toContain(
      'links angeschlagen, von außen gesehen, öffnet nach außen',
    );
    const packing = step('glaze.pack@L1').do.join(' ');
    expect(packing).toMatch(/Tragklotz, Unterkante, Mitte [\d.]+ mm von der linken Ecke des Glases/);
    expect(packing).not.toMatch(/\b(setting|bracing|location|edge|centre|corner)\b/);
    expect(step('dispatch.stillage').caution).toMatch(/\((eine Person|zwei Personen|Hebehilfe)\)/);
  });

  it('is told the titles of other units’ steps in lists, at the bench and by the board, now and the next time', async () => {
    const { core, folder } = benchOn('P01-1');
    core.feed('LB\r');
    core.feed(RIGHT);
    core.quiet();
    core.feed(BY_STAGE);
    expect(core.state().screen.name).toBe('stages');
    const rows = listOf(core.state(), core.world()).map(({ text }) => text);
    expect(rows.join('\n')).toMatch(/^Unterlagen des Auftrags lesen /m);
    core.feed(BY_STAGE);
    const page = handoverLines(core.world(), 80).flatMap((spans) => spans.map(({ text }) => text));
    expect(page.join(' ')).toMatch(/P01-1 Unterlagen des Auftrags lesen/);
    core.feed(BY_STAGE);
    const units = listOf(core.state(), core.world()).map(({ text }) => text);
    expect(units[0]).toMatch(/Unterlagen des Auftrags lesen$/);
    for (let i = 0; i < 2; i++) {
      const lines: string[] = [];
      const io = { workshop: folder, reader: await readerOf('de'), out: (text: string) => lines.push(text) };
      await board([], { ...io, err: io.out });
      expect(lines.join('\n')).toMatch(/P01-1 .* Unterlagen des Auftrags lesen\n/);
      expect(readFileSync(join(folder, 'logs/index/board.json'), 'latin1')).toContain('casement.de');
    }
  });

  it('writes the same ids and values as everybody', () => {
    const record = (person: string) => {
      const bench = benchOn('P01-1');
      bench.core.feed(`${person}\r`);
      for (let i = 0; i < 12; i++) {
        const world = bench.core.world();
        const { state } = world.open!;
        const context: DecisionContext = {
          now: world.now,
          bench: world.bench,
          person,
          inHand: bench.core.state().inHand,
          // Whoever is at the bench does it all.
          workshop: { ...world.rules, people: world.rules.people.filter(({ id }) => id === person) },
          instruments: world.instruments,
        };
        const move = nextMove(state, context);
        if (move.kind !== 'act') break;
        const { action } = move;
        const check = 'check' in action ? action.check : undefined;
        const kind = state.route.steps.flatMap(({ checks }) => checks).find(({ id }) => id === check)?.kind;
        for (const keys of keysFor(action, kind) ?? []) bench.core.feed(keys);
      }
      return bench.journal('P01-1').map((event) => ({
        kind: event.kind,
        ...(event.kind === 'answered'
          ? { step: event.step, check: event.check, answer: event.answer, outcome: event.verdict.outcome }
          : {}),
      }));
    };
    const english = record('jb');
    expect(english.length).toBeGreaterThan(8);
    expect(record('lb')).toEqual(english);
  });
});

describe('a journal', () => {
  const answers = (bench: Bench, person: string, n: number) => {
    bench.core.feed(`${person}\r`);
    for (let i = 0; i < n; i++) bench.core.feed('\x1b[C');
  };
  const wordsOf = (events: readonly JournalEvent[]) =>
    events.flatMap((event) => ('basis' in event && event.basis?.words ? [[event.n, event.basis.words]] : []));

  it('keeps in which language the steps were read, with the words that were read, when that changes', () => {
    const bench = benchOn('P03-1');
    answers(bench, 'LB', 1);
    bench.core.feed('JB\r');
    bench.core.feed('1\r');
    const words = wordsOf(bench.journal('P03-1'));
    expect(words).toHaveLength(2);
    const [german, english] = words.map(([, hash]) => {
      const file = readdirSync(join(bench.folder, 'logs/sources')).find((name) =>
        name.startsWith(String(hash)),
      );
      return readFileSync(join(bench.folder, 'logs/sources', file!), 'utf8');
    });
    expect(german).toMatch(/^pinchrod-words 1\nlanguage de\ncatalogue [0-9a-f]{64}\n\n/);
    expect(german).toContain(readFileSync(join(bench.folder, 'procedures/casement.de.yaml'), 'utf8'));
    expect(english).toMatch(/^pinchrod-words 1\nlanguage en\ncatalogue [0-9a-f]{64}\n\n$/);
  });

  it('of somebody who reads the procedure in its own language says nothing of it', () => {
    const bench = benchOn('P03-1');
    answers(bench, 'JB', 2);
    expect(wordsOf(bench.journal('P03-1'))).toEqual([]);
  });

  it('of the same work is the same but for who did it and what was read', () => {
    const written = (person: string) => {
      const bench = benchOn('P03-1');
      answers(bench, person, 3);
      return bench.journal('P03-1').map((event) => {
        const { by, hash, prev, at, stood, basis, ...rest } = event as JournalEvent & {
          readonly stood?: number;
          readonly basis?: object;
        };
        const { words: _read, team: _team, ...others } = (basis ?? {}) as { words?: string; team?: string };
        return { ...rest, ...(Object.keys(others).length > 0 ? { basis: others } : {}) };
      });
    };
    const english = written('JB');
    expect(english.length).toBeGreaterThan(2);
    expect(written('LB')).toEqual(english);
  });
});

describe('what is not translated', () => {
  it('falls back item by item', () => {
    const { core, text } = benchOn('P03-1', (folder) => {
      const file = join(folder, 'procedures/casement.de.yaml');
      const was = readFileSync(file, 'utf8');
      writeFileSync(file, was.replace('      revision: Stimmen', '      # revision: Stimmen'));
    });
    core.feed('LB\r');
    expect(text()).toContain('Unterlagen des Auftrags lesen');
    expect(text()).toContain('Do mark and revision agree on order');
  });

  it('is all of it where the translation cannot be read, and the bench goes on', () => {
    const { core, text } = benchOn('P03-1', (folder) =>
      writeFileSync(join(folder, 'procedures/casement.de.yaml'), 'format: [\n'),
    );
    core.feed('LB\r');
    expect(text()).toContain('Read the papers of the order');
  });

  it('is every step that reads otherwise than when the unit was begun', () => {
    const { core, text, folder } = benchOn('P03-1');
    core.feed('LB\r');
    core.feed('\x7f\x1b[C');
    expect(text()).toContain('Unterlagen des Auftrags lesen');
    const file = join(folder, 'procedures/casement.yaml');
    const now = readFileSync(file, 'utf8')
      .replace('Read mark and revision on each.', 'Read mark, revision and date on each.')
      .replace('version: "1.0"', 'version: "1.1"');
    writeFileSync(file, now);
    const german = join(folder, 'procedures/casement.de.yaml');
    writeFileSync(
      german,
      readFileSync(german, 'utf8')
        .replace(
          'Position und Stand auf jedem Blatt lesen.',
          'Kennzeichen, Stand und Datum auf jedem Blatt lesen.',
        )
        .replace('version: "1.0"', 'version: "1.1"'),
    );
    // The board is read anew with F2, and with it the workshop's files.
    core.feed('\x1bOQ');
    core.feed('p03-1\r');
    expect(text()).toContain('Read mark and revision on each.');
    expect(text()).not.toContain('Datum');
    expect(core.world().open!.state.route.steps[1]!.title).toBe(
      'Aufteilung, Anschlagseite und Glas laut lesen',
    );
  });
});

it('lists and holds are told in the language too', () => {
  const { core } = benchOn('P03-1');
  core.feed('LB\r');
  core.feed('\x14');
  expect(listOf(core.state(), core.world())[0]!.text).toContain('Unterlagen des Auftrags lesen');
  const lines = releaseLines(
    core.state(),
    { name: 'release', step: 'order.freeze', cursor: { at: 0, moved: false } },
    core.world(),
    100,
  );
  expect(lines.map((line) => line.map(({ text }) => text).join('')).join('\n')).toContain(
    'Auftrag festgeschrieben',
  );
});

it.each(['ja', 'yes'])('%s may be typed by somebody who reads German', (yes) => {
  const { core, journal } = benchOn('P03-1');
  core.feed('LB\r');
  core.feed(`${yes}\r`);
  expect(journal('P03-1').filter(({ kind }) => kind === 'answered').length).toBe(1);
});

it('a word of a language that the person does not read is no answer', () => {
  const { core } = benchOn('P03-1');
  core.feed('JB\r');
  core.feed('ja\r');
  expect(core.state().note?.tone).toBe('bad');
});

it('figures of an answer have the decimals of the reader', () => {
  const answer = { kind: 'number' as const, readings: [{ raw: '20.5', value: 20.5 }] };
  expect(answerText(told({ language: 'de' }), { answer })).toBe('20,5');
  expect(answerText(told({}), { answer })).toBe('20.5');
});
