/** The first files of a shop's own workshop, from what it said: its name, its people and the instruments in its drawer. */
import { err, ok, type Result } from '../base/problem.js';
import { parseInstruments } from '../measure/instruments.js';
import { parseHouse, parsePeople } from './company.js';

export interface OwnWorkshop {
  readonly name: string;
  /** As labels print it; may be empty. */
  readonly place: string;
  /** The first one runs the workshop. */
  readonly people: readonly { readonly id: string; readonly name: string }[];
  readonly instruments: readonly InstrumentWord[];
  /** In which the bench speaks to these people; undefined: English. */
  readonly language?: string | undefined;
}

/** Instruments of a drawer, by words, and which of shared/beginnings/instruments.yaml each is. */
const DRAWER = {
  tape: 'T1',
  'fine-tape': 'T2',
  rule: 'R1',
  'long-rule': 'R2',
  calliper: 'C1',
  feeler: 'F1',
  bevel: 'A1',
  'straight-edge': 'E1',
  'spring-balance': 'B1',
  clock: 'K1',
  thermometer: 'H1',
  'gap-gauge': 'G1',
  'coating-gauge': 'CG1',
} as const;
export type InstrumentWord = keyof typeof DRAWER;
export const INSTRUMENT_WORDS = Object.keys(DRAWER) as readonly InstrumentWord[];

const HOUSE = 'shared/workshop.yaml';
const PEOPLE = 'shared/people.yaml';
const INSTRUMENTS = 'shared/instruments.yaml';

/**
 * Files by their names; a problem where one of them would not be read.
 * @param shipped the text of a file of the package
 */
export function ownFiles(
  own: OwnWorkshop,
  shipped: (file: string) => string,
): Result<ReadonlyMap<string, string>> {
  const beginning = (name: string) => shipped(`shared/beginnings/${name}.yaml`);
  const files = new Map([
    [HOUSE, houseText(own, shipped(HOUSE))],
    [PEOPLE, beginning('people') + own.people.map((person, i) => personText(person, i, own)).join('')],
    [INSTRUMENTS, instrumentsText(own, beginning('instruments'))],
    ['shared/jobs/first.yaml', beginning('first')],
  ]);
  const text = (file: string) => ({ file, text: files.get(file)! });
  const problems = [
    parseHouse(text(HOUSE)),
    parsePeople(text(PEOPLE)),
    parseInstruments(text(INSTRUMENTS)),
  ].flatMap((read) => (read.ok ? [] : read.problems));
  return problems.length > 0 ? err(...problems) : ok(files);
}

/** JSON's strings are strings of YAML, whatever is in them. */
const quoted = (text: string): string => JSON.stringify(text);

/** The demonstration's house rules with their comments, under another name. */
function houseText({ name, place, people }: OwnWorkshop, shipped: string): string {
  const alone = people.length < 2;
  return shipped
    .replace(/^note: .*\n/m, '')
    .replace(/^name: .*$/m, () => `name: ${quoted(name)}`)
    .replace(/^ {2}maker: .*$/m, () => `  maker: ${quoted(name)}`)
    .replace(/^ {2}address: .*$/m, () => `  address: ${quoted(place)}`)
    .replace(/^soloRelease: /m, () => (alone ? 'soloRelease: ' : '# soloRelease: '));
}

/** Whoever runs the workshop may assess others; the second may release, since nobody releases their own work; the rest work alone. */
function personText(
  { id, name }: OwnWorkshop['people'][number],
  nth: number,
  { language }: OwnWorkshop,
): string {
  return [
    `  - id: ${quoted(id)}`,
    `    initials: ${quoted(id.toUpperCase().slice(0, LONGEST_INITIALS))}`,
    `    name: ${quoted(name)}`,
    `    levels: {all: ${[5, 4][nth] ?? 3}}`,
    ...(language === undefined ? [] : [`    language: ${language}`]),
    '',
  ].join('\n');
}
const LONGEST_INITIALS = 6;

/** The rows of the instruments that are there; an empty list where there are none. */
function instrumentsText({ instruments }: OwnWorkshop, beginning: string): string {
  const wanted = new Set<string>(instruments.map((word) => DRAWER[word]));
  const kept = beginning
    .split('\n')
    .filter((line) => {
      const id = /^ {2}- \{id: (\w+)/.exec(line)?.[1];
      return id === undefined || wanted.has(id);
    })
    .join('\n');
  return wanted.size > 0 ? kept : kept.replace(/^instruments:$/m, 'instruments: []');
}
