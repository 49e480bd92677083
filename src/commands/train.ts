/** `train`: drills, practice walks, memory, sign-off and a person's page. Never touches logs/. */
import { problemText } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { parseReading } from '../measure/units.js';
import type { GameLevel } from '../training/squaring/model.js';
import { HELP } from './help.js';
import { EXIT, type Io, readOptions } from './io.js';
import { page, runAssessment } from './train/assess.js';
import { faultFinding, settingOut, squaring } from './train/drills.js';
import { failed, realSession, type Session, TrainingShop } from './train/shop.js';
import { memory, walk } from './train/study.js';

const OPTIONS = {
  seed: { type: 'string' },
  level: { type: 'string' },
  size: { type: 'string' },
  faults: { type: 'string' },
  minutes: { type: 'string' },
  person: { type: 'string' },
  stage: { type: 'string' },
  procedure: { type: 'string' },
  by: { type: 'string' },
  text: { type: 'string' },
  unit: { type: 'string' },
  set: { type: 'string' },
  waive: { type: 'string' },
  html: { type: 'boolean' },
  json: { type: 'boolean' },
  ascii: { type: 'boolean' },
  plain: { type: 'boolean' },
} as const;

export async function run(args: string[], io: Io, given?: Session): Promise<number> {
  const read = readOptions(args, io, HELP.train, OPTIONS, { most: 5 });
  if (typeof read === 'number') return read;
  const { values, positionals } = read;
  const [what, ...words] = positionals;
  if (what === undefined) return used(io, 'Say what to train.');
  const json = values.json === true;
  const seed = values.seed === undefined ? undefined : whole(values.seed, -2147483648, 2147483647);
  if (seed === null) return used(io, '--seed takes a whole number.');
  const opened = TrainingShop.open(io.workshop);
  // The squaring drill needs no workshop unless a person is named.
  if (!opened.ok && (what !== 'squaring' || values.person !== undefined)) return failed(opened.problems, io);
  const shop = opened.ok ? opened.value : undefined;
  const person = values.person === undefined ? undefined : shop!.person(values.person);
  if (person && !person.ok) return failed(person.problems, io);
  const who = person?.ok ? person.value : undefined;
  const session = (): Session =>
    given ?? realSession({ plain: values.plain === true, input: io.input, zone: shop?.workshop.zone });
  const drill = { person: who?.id, seed, json };
  switch (what) {
    case 'squaring': {
      const level = whole(values.level ?? '2', 1, 3);
      const size = sizeOf(values.size);
      if (level === null) return used(io, '--level takes 1, 2 or 3.');
      if (size === null)
        return used(io, '--size takes a width and a height from 300 to 4000, such as 1000x1200.');
      return squaring(shop, { ...drill, level: level as GameLevel, size }, session(), io);
    }
    case 'setout':
      if (words.length !== 2) return used(io, 'setout takes a unit and a light.');
      return settingOut(shop!, words[0]!, words[1]!, drill, session(), io);
    case 'faults': {
      const faults = whole(values.faults ?? '3', 1, 6);
      if (words.length !== 1 || faults === null) return used(io, 'faults takes a unit, and 1 to 6 faults.');
      return faultFinding(shop!, words[0]!, { ...drill, faults }, session(), io);
    }
    case 'memory': {
      const minutes = whole(values.minutes ?? '5', 1, 60);
      if (words.length !== 1 || !who || minutes === null)
        return used(io, 'memory takes a unit and --person ID.');
      return memory(shop!, words[0]!, { person: who, minutes, json }, session(), io);
    }
    case 'walk':
      if (words.length !== 1 || !who) return used(io, 'walk takes a unit and --person ID.');
      return walk(
        shop!,
        words[0]!,
        { person: who, stage: values.stage, json, ascii: values.ascii === true },
        session(),
        io,
      );
    case 'signoff': {
      if (words.length < 3 || values.by === undefined)
        return used(io, 'signoff takes observe, give or withdraw, a person, a stage, and --by ID.');
      const procedure = shop!.procedure(values.procedure);
      if (!procedure.ok) return failed(procedure.problems, io);
      const { by, text, unit, waive, set } = values;
      return runAssessment(
        shop!,
        procedure.value,
        words,
        { by, text, unit, waive, set, json },
        session(),
        io,
      );
    }
    case 'page': {
      if (words.length !== 1) return used(io, 'page takes one person.');
      const procedure = shop!.procedure(values.procedure);
      if (!procedure.ok) return failed(procedure.problems, io);
      return page(
        shop!,
        procedure.value,
        words[0]!,
        values.html ? 'html' : json ? 'json' : 'text',
        session(),
        io,
      );
    }
    case 'verify':
      return verify(shop!, json, io);
    default:
      return used(io, `"${sanitize(what)}" is nothing to train.`);
  }
}

function verify(shop: TrainingShop, json: boolean, io: Io): number {
  const report = shop.verify();
  if (json) io.out(JSON.stringify({ holds: report.problems.length === 0, ...report }));
  else {
    for (const problem of report.problems) io.out(problemText(problem));
    io.out(
      `${report.journals} journals, ${report.events} events: ${report.problems.length === 0 ? 'all whole and unaltered' : `${report.problems.length} do not hold`}.`,
    );
  }
  return report.problems.length === 0 ? EXIT.done : EXIT.doesNotHold;
}

function used(io: Io, text: string): number {
  io.err(`${text} [train.usage]\n  See pinchrod train --help.`);
  return EXIT.badInput;
}

function whole(text: string, low: number, high: number): number | null {
  const n = /^-?\d{1,10}$/.test(text) ? Number(text) : Number.NaN;
  return n >= low && n <= high ? n : null;
}

function sizeOf(text: string | undefined): { w: number; h: number } | undefined | null {
  if (text === undefined) return undefined;
  const [w, h, more] = text.split(/x/i).map((part) => parseReading(part, { unit: 'mm' }));
  if (!w?.ok || !h?.ok || more !== undefined) return null;
  const inside = (mm: number) => mm >= 300 && mm <= 4000;
  return inside(w.value) && inside(h.value) ? { w: w.value, h: h.value } : null;
}
