/** `train`: drills, practice walks, memory, sign-off and a person's page. Never touches logs/. */
import { problemTold } from '../base/problem.js';
import { parseReading } from '../measure/units.js';
import { trainingProblem } from '../training/messages.js';
import type { GameLevel } from '../training/squaring/model.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, readOptions, saying } from './io.js';
import { readerOf } from './reader.js';
import { withTitles } from './titles.js';
import { page, runAssessment } from './train/assess.js';
import { faultFinding, settingOut, squaring } from './train/drills.js';
import { failed, realSession, type Session, TrainingShop } from './train/shop.js';
import { memory, walk } from './train/study.js';
import { MAKING_SAYS } from './words/making.js';

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

export async function run(args: string[], from: Io, given?: Session): Promise<number> {
  const read = readOptions(args, from, HELP.train, OPTIONS, { most: 5 });
  if (typeof read === 'number') return read;
  const { values, positionals } = read;
  const [what, ...words] = positionals;
  if (what === undefined) return fail(from, [trainingProblem('train.usage/what')], EXIT.badInput);
  const json = values.json === true;
  const seed = values.seed === undefined ? undefined : whole(values.seed, -2147483648, 2147483647);
  if (seed === null) return fail(from, [trainingProblem('train.usage/seed')], EXIT.badInput);
  const opened = TrainingShop.open(from.workshop);
  // The squaring drill needs no workshop unless a person is named.
  if (!opened.ok && (what !== 'squaring' || values.person !== undefined))
    return failed(opened.problems, from);
  const shop = opened.ok ? opened.value : undefined;
  const person = values.person === undefined ? undefined : shop!.person(values.person);
  if (person && !person.ok) return failed(person.problems, from);
  const who = person?.ok ? person.value : undefined;
  // Practice speaks as the bench does: in the language of the person, where one is named.
  const spoken: Io = who?.language === undefined ? from : { ...from, reader: await readerOf(who.language) };
  const io = shop === undefined ? spoken : await withTitles(spoken, (language) => shop.titles(language));
  const session = (): Session =>
    given ?? realSession({ plain: values.plain === true, input: io.input, zone: shop?.workshop.zone });
  const drill = { person: who?.id, seed, json };
  switch (what) {
    case 'squaring': {
      const level = whole(values.level ?? '2', 1, 3);
      const size = sizeOf(values.size);
      if (level === null) return fail(io, [trainingProblem('train.usage/level')], EXIT.badInput);
      if (size === null) return fail(io, [trainingProblem('train.usage/size')], EXIT.badInput);
      return squaring(shop, { ...drill, level: level as GameLevel, size }, session(), io);
    }
    case 'setout':
      if (words.length !== 2) return fail(io, [trainingProblem('train.usage/setout')], EXIT.badInput);
      return settingOut(shop!, words[0]!, words[1]!, drill, session(), io);
    case 'faults': {
      const faults = whole(values.faults ?? '3', 1, 6);
      if (words.length !== 1 || faults === null)
        return fail(io, [trainingProblem('train.usage/faults')], EXIT.badInput);
      return faultFinding(shop!, words[0]!, { ...drill, faults }, session(), io);
    }
    case 'memory': {
      const minutes = whole(values.minutes ?? '5', 1, 60);
      if (words.length !== 1 || !who || minutes === null)
        return fail(io, [trainingProblem('train.usage/memory')], EXIT.badInput);
      return memory(shop!, words[0]!, { person: who, minutes, json }, session(), io);
    }
    case 'walk':
      if (words.length !== 1 || !who) return fail(io, [trainingProblem('train.usage/walk')], EXIT.badInput);
      return walk(
        shop!,
        words[0]!,
        { person: who, stage: values.stage, json, ascii: values.ascii === true },
        session(),
        io,
      );
    case 'signoff': {
      if (words.length < 3 || values.by === undefined)
        return fail(io, [trainingProblem('train.usage/signoff')], EXIT.badInput);
      const procedure = shop!.procedure(
        values.procedure,
        words[0] === 'give' ? { name: values.set } : undefined,
      );
      if (!procedure.ok)
        return procedure.problems.some(({ id }) => id === 'train.set')
          ? fail(io, procedure.problems, EXIT.doesNotHold)
          : failed(procedure.problems, io);
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
      if (words.length !== 1) return fail(io, [trainingProblem('train.usage/page')], EXIT.badInput);
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
      return fail(io, [trainingProblem('train.usage/nothing', { what })], EXIT.badInput);
  }
}

function verify(shop: TrainingShop, json: boolean, io: Io): number {
  const report = shop.verify();
  if (json) io.out(asJson({ holds: report.problems.length === 0, ...report }));
  else {
    for (const problem of report.problems) io.out(problemTold(problem, io.reader?.tell));
    const say = saying(io, MAKING_SAYS);
    const { journals, events, problems } = report;
    const n = problems.length;
    io.out(n === 0 ? say('train-whole', { journals, events }) : say('train-faults', { journals, events, n }));
  }
  return report.problems.length === 0 ? EXIT.done : EXIT.doesNotHold;
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
