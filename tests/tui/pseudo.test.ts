/**
 * The bench in a language that nobody speaks, through a unit and over every screen. A word without accents that no file of the
 * workshop says was written into the code, and no translator would find it.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { keysFor } from '../../src/tui/keyscript.js';
import { BENCH_TEXTS } from '../../src/tui/words/told.js';
import { nextMove } from '../../src/unit/autopilot.js';
import type { DecisionContext } from '../../src/unit/types.js';
import { CATALOGUES } from '../base/catalogues.js';
import { accented, accentedText, pseudo } from '../base/pseudo.js';
import { drawnText } from './drawn.js';
import {
  type Bench,
  benchOf,
  DOWN,
  ESC,
  LEFT,
  OVERVIEW,
  RIGHT,
  remove,
  SETUPS,
  startClock,
  workshop,
} from './realbench.js';

const SIZE = { columns: 80, rows: 24 };
const F = [
  '\u001bOP',
  '\u001bOQ',
  '\u001bOR',
  '\u001bOS',
  '\u001b[15~',
  '\u001b[17~',
  '\u001b[18~',
  '\u001b[19~',
  '\u001b[20~',
  '\u001b[21~',
  '\u001b[24~',
];
const CONTROLS = ['\u0014', '\u0017', '\u0002', '\u0019', '\u000e', '\u0007', '\u0012', '\u0005'];

const root = workshop();
BENCH_TEXTS.set(
  'xa',
  Object.assign({}, ...CATALOGUES.map(({ catalogue }) => pseudo(catalogue, accentedText))),
);
withWords(root);
const clock = startClock();
const bench = benchOf(root, clock);
afterAll(() => {
  BENCH_TEXTS.delete('xa');
  bench.ports.close();
  remove(root);
});

/** The procedure in that language, and everybody who reads it. */
function withWords(folder: string): void {
  const german = join(folder, 'procedures/casement.de.yaml');
  const walk = (value: unknown, key = ''): unknown => {
    if (typeof value === 'string')
      return ['format', 'procedure', 'version', 'language'].includes(key) ? value : formulas(value);
    if (Array.isArray(value)) return value.map((each) => walk(each));
    if (value !== null && typeof value === 'object')
      return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, walk(each, name)]));
    return value;
  };
  const made = walk(parse(readFileSync(german, 'utf8'))) as Record<string, unknown>;
  writeFileSync(join(folder, 'procedures/casement.xa.yaml'), stringify({ ...made, language: 'xa' }));
  const people = join(folder, 'shared/people.yaml');
  writeFileSync(
    people,
    readFileSync(people, 'utf8')
      .replace(/^( *)(initials: .*)$/gm, '$1$2\n$1language: xa')
      .replace(/\n *language: de/g, ''),
  );
}
/** Words, and not what is worked out. */
function formulas(text: string): string {
  return text.replace(/\{[^}]*\}|[^{}]+/g, (piece) => (piece.startsWith('{') ? piece : accented(piece)));
}

/** What the workshop's files say, longest first: titles, names, ids. */
function said(): readonly string[] {
  const texts = new Set<string>();
  const collect = (value: unknown): void => {
    if (typeof value === 'string') texts.add(value.replace(/\s+/g, ' ').trim());
    else if (Array.isArray(value)) for (const each of value) collect(each);
    else if (value !== null && typeof value === 'object')
      for (const [key, each] of Object.entries(value)) {
        texts.add(key);
        collect(each);
      }
  };
  const files = (folder: string): string[] =>
    readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) =>
      entry.isDirectory()
        ? files(join(folder, entry.name))
        : entry.name.endsWith('.yaml')
          ? [join(folder, entry.name)]
          : [],
    );
  for (const file of files('shared')) collect(parse(readFileSync(join(root, file), 'utf8')));
  const ids =
    bench.core
      .world()
      .open?.state.route.steps.flatMap(({ id, base, checks }) => [
        id,
        base,
        ...checks.map((check) => check.id),
      ]) ?? [];
  return [
    ...texts,
    ...ids,
    'bench-t',
    'pier-house',
    'mm',
    'kg',
    'min',
    'shared/people.yaml',
    'shared/setups.yaml',
    'pinchrod',
    'html',
    'Enter',
    'Esc',
    'Tab',
  ]
    .filter((text) => /[A-Za-z]{2}/.test(text))
    .toSorted((a, b) => b.length - a.length);
}

let data: readonly string[] | undefined;
const found = new Map<string, string>();
function look(at: string): void {
  data ??= said();
  let text = drawnText(bench.core, SIZE).replaceAll(' UTC', '').replace(/\s+/g, ' ');
  for (const each of data) if (text.includes(each)) text = text.replaceAll(each, ' ');
  for (const [word] of text.matchAll(/(?<![\p{L}\d_.~-])[A-Za-z]{3,}(?![\p{L}\d_-])/gu))
    if (!found.has(word))
      found.set(
        word,
        `${at}: …${text.slice(Math.max(0, text.indexOf(word) - 40), text.indexOf(word) + 40)}…`,
      );
}

function everyScreen(of: Bench, at: string): void {
  look(at);
  for (const key of [...F, SETUPS, OVERVIEW, ...CONTROLS]) {
    of.press(key);
    look(`${at} ${JSON.stringify(key)} ${of.core.state().screen.name}`);
    of.press(DOWN);
    look(`${at} ${JSON.stringify(key)} marked`);
    of.press(ESC, ESC, ESC);
  }
}

it('no word of the program stands on a screen but in the language of the reader', () => {
  const { core, press } = bench;
  press('jb\r');
  core.open('pier-house/P01-1');
  everyScreen(bench, 'begin');
  for (let i = 0; i < 120; i += 1) {
    const world = core.world();
    const { state } = world.open!;
    const context: DecisionContext = {
      now: world.now,
      bench: world.bench,
      person: core.state().person,
      inHand: core.state().inHand,
      workshop: world.rules,
      instruments: world.instruments,
    };
    const move = nextMove(state, context);
    if (move.kind !== 'act') break;
    const { action } = move;
    const check = 'check' in action ? action.check : undefined;
    const kind = state.route.steps.flatMap(({ checks }) => checks).find(({ id }) => id === check)?.kind;
    for (const keys of keysFor(action, kind) ?? []) {
      press(keys);
      look(`${i} ${action.do} ${check ?? ''}`);
    }
    if (i % 30 === 7) {
      press('77777\r');
      look(`${i} far off`);
      press(LEFT, ESC);
      press(LEFT);
      look(`${i} refused`);
      everyScreen(bench, `at ${i}`);
    }
  }
  press(RIGHT);
  everyScreen(bench, 'end');
  expect([...found].map(([word, where]) => `${word}: ${where}`)).toEqual([]);
});
