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

/**
 * Instruments of a drawer, by words. Errors are from memory: what such an instrument usually has, until its certificate says
 * otherwise. A tape's class stands for the figures of Directive 2014/32/EU, annex X.
 */
const DRAWER = {
  tape: 'id: T1, kind: tape, measures: [length], range: [0, 5000], title: "tape 5 m, hook", resolution: 1, class: II, hook: true',
  'fine-tape':
    'id: T2, kind: tape, measures: [length], range: [0, 3000], title: "tape 3 m, half millimetres", resolution: 0.5, class: II, hook: true',
  rule: 'id: R1, kind: rule, measures: [length], range: [0, 1000], title: "steel rule 1 m", resolution: 0.5, maxError: 0.15',
  'long-rule':
    'id: R2, kind: rule, measures: [length], range: [0, 3000], title: "long rule 3 m with end stop", resolution: 0.1, maxError: 0.2',
  calliper:
    'id: C1, kind: calliper, measures: [length, gap, depth], range: [0, 150], title: "digital calliper 150 mm", resolution: 0.01, maxError: 0.03',
  feeler:
    'id: F1, kind: feeler, measures: [gap], steps: {from: 0.05, to: 1, by: 0.05}, title: "feeler gauges 0.05 to 1.00 mm", resolution: 0.05, maxError: 0.01',
  bevel:
    'id: A1, kind: square, measures: [angle], range: [0, 180], title: "digital bevel", unit: deg, resolution: 0.01, maxError: 0.05',
  'straight-edge':
    'id: E1, kind: straight-edge, measures: [gap], steps: {from: 0.05, to: 3, by: 0.05}, title: "straight-edge 2 m with feeler", resolution: 0.05, maxError: 0.05',
  'spring-balance':
    'id: B1, kind: spring-balance, measures: [force], range: [0, 200], title: "spring balance 200 N", unit: N, resolution: 1, maxError: 1.5',
  clock:
    'id: K1, kind: timer, measures: [time], range: [0, 1440], title: "bench clock", unit: min, resolution: 1, maxError: 0.5',
  thermometer:
    'id: H1, kind: gauge, measures: [temperature], range: [-20, 60], title: "thermometer", unit: C, resolution: 0.5, maxError: 1',
  'gap-gauge':
    'id: G1, kind: gauge, measures: [gap], steps: {from: 4, to: 20, by: 0.5}, title: "stepped gap gauge 4 to 20 mm", resolution: 0.5, maxError: 0.1',
  'coating-gauge':
    'id: CG1, kind: gauge, measures: [coating], range: [0, 500], title: "coating gauge", unit: µm, resolution: 1, maxError: 2',
} as const;
export type InstrumentWord = keyof typeof DRAWER;
export const INSTRUMENT_WORDS = Object.keys(DRAWER) as readonly InstrumentWord[];

const HOUSE = 'shared/workshop.yaml';
const PEOPLE = 'shared/people.yaml';
const INSTRUMENTS = 'shared/instruments.yaml';

/** Files by their names; a problem where one of them would not be read. */
export function ownFiles(
  own: OwnWorkshop,
  shipped: (file: string) => string,
): Result<ReadonlyMap<string, string>> {
  const files = new Map([
    [HOUSE, houseText(own, shipped(HOUSE))],
    [PEOPLE, peopleText(own)],
    [INSTRUMENTS, instrumentsText(own)],
    ['shared/jobs/first.yaml', FIRST_JOB],
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

function peopleText({ people, language }: OwnWorkshop): string {
  return `format: pinchrod-people 1

# id and initials are what a badge holds or a person types; large and small letters are the same.
# levels: per stage of the procedure, "all" for the stages not named.
#   0 inducted, 1 observed, 2 supervised (the step takes a second name), 3 alone, 4 may release holds, 5 may assess others
# validUntil: YYYY-MM-DD, after which the levels no longer count until somebody has looked again.
# language: of the bench; ^A switches. Records keep to the procedure's.
# PINs do not stand here. Each sets their own: pinchrod person pin ID

people:
${people
  .map(
    ({ id, name }, i) =>
      `  - id: ${quoted(id)}\n    initials: ${quoted(initialsOf(id))}\n    name: ${quoted(name)}\n    levels: {all: ${i === 0 ? 5 : 3}}\n${language === undefined ? '' : `    language: ${language}\n`}`,
  )
  .join('')}`;
}

/** Up to six letters of a code. */
const initialsOf = (id: string): string => id.toUpperCase().slice(0, 6);

function instrumentsText({ instruments }: OwnWorkshop): string {
  const rows = INSTRUMENT_WORDS.filter((word) => instruments.includes(word)).map(
    (word) => `  - {${DRAWER[word]}}\n`,
  );
  return `format: pinchrod-instruments 2

# Resolutions and errors are what such instruments usually have. Put those of your certificates in their place, and add
# serial, calibrated, due (YYYY-MM-DD) and certificate; without "due" nothing ever falls due. shared/measuring.md says what
# each key means. Another one: pinchrod new instrument ID

instruments:${rows.length === 0 ? ' []\n' : `\n${rows.join('')}`}`;
}

const FIRST_JOB = `# yaml-language-server: $schema=../schemas/job.json
# A window to try the bench with, of an invented profile set. Your own: pinchrod new set NAME, then pinchrod new job NAME.
format: pinchrod-job 1
name: first
title: A window to try
profile_set: w52
procedure: casement
glass: 4-16-4
outside_colour: white
inside_colour: white

units:
  - mark: W1
    width: 650
    height: 1150
    layout: {light: side-hung, hinge: left, viewed_from: outside, opens: out}
`;
