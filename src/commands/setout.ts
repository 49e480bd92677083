/** `setout`: every size and mark of a job's units, the cut list, the drawing, and how each number is derived. */

import { createHash } from 'node:crypto';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { nearest } from '../base/knownkeys.js';
import { err, type Problem, problemFactory, problemTold, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data } from '../base/words.js';
import { realDisk } from '../store/disk.js';
import { textIn } from '../store/filecollection.js';
import { cutCsv, cutList, markCsv, markList } from '../window/cutlist.js';
import { drawSvg } from '../window/draw.js';
import { elevation } from '../window/elevation.js';
import { type Job, parseJob } from '../window/job.js';
import { type ProfileSet, parseProfileSet } from '../window/profileset.js';
import { setOutMany } from '../window/setout.js';
import { frozenSetOut, setOutJson } from '../window/setoutjson.js';
import { type SetOut, SPOTS, type Spot } from '../window/types.js';
import { why } from '../window/why.js';
import { SETOUT_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { asJson, asLines, EXIT, fail, type Io, readOptions, saying, tellOf } from './io.js';
import { cutText, markText, setOutText } from './setouttext.js';
import { whyLines } from './whytext.js';
import { MAKING_SAYS } from './words/making.js';

const raise = problemFactory(SETOUT_MESSAGES);

export async function run(args: string[], io: Io): Promise<number> {
  const flag = { type: 'boolean' } as const;
  const word = { type: 'string' } as const;
  const read = readOptions(
    args,
    io,
    HELP.setout,
    {
      json: flag,
      cut: flag,
      csv: flag,
      marks: flag,
      ascii: flag,
      all: flag,
      svg: word,
      why: word,
      spot: word,
      item: word,
      triangle: word,
    },
    { least: 1, most: 2 },
  );
  if (typeof read === 'number') return read;
  const { values, positionals } = read;
  const loaded = load(io.workshop, positionals[0]!);
  if (!loaded.ok) return fail(io, loaded.problems, EXIT.badInput);
  const { job, set } = loaded.value;
  const wanted = positionals[1]?.toLowerCase();
  const units = job.units.filter(
    ({ id, mark }) => wanted === undefined || id.toLowerCase() === wanted || mark.toLowerCase() === wanted,
  );
  if (units.length === 0) return fail(io, [noUnit(job, positionals[1]!)], EXIT.badInput);
  const setOuts = setOutMany(units, set);
  const refused = setOuts.filter((setOut) => setOut.refused);

  for (const setOut of setOuts)
    if (isOtherwise(io.workshop, job.name, setOut))
      io.err(problemTold(raise('setout.begun', { unit: setOut.unit.id }), io.reader?.tell));
  if (values.why !== undefined) return showWhy(setOuts[0]!, values.why);
  if (values.svg !== undefined) return writeSvg(setOuts, values.svg);
  // On the sheet itself, as it is what gets printed.
  if ((values.cut || values.marks) && !values.json && !values.csv && refused.length > 0)
    io.out(saying(io, MAKING_SAYS)('setout-refused', { units: refused.map(({ unit }) => unit.id) }));
  if (values.cut)
    io.out(
      values.json
        ? asJson({ cuts: cutList(setOuts), extras: extras(setOuts) })
        : values.csv
          ? data(cutCsv(setOuts))
          : cutText(setOuts, io),
    );
  else if (values.marks)
    io.out(
      values.json
        ? asJson({ marks: markList(setOuts) })
        : values.csv
          ? data(markCsv(setOuts))
          : markText(setOuts, io),
    );
  else if (values.json) io.out(asJson(setOutJson(setOuts)));
  else if (values.csv) io.out(data(cutCsv(setOuts)));
  else
    io.out(
      data(
        setOuts
          .map((setOut) => setOutText(setOut, { ascii: values.ascii ?? false }, io).join('\n'))
          .join('\n\n'),
      ),
    );
  // The plain text already shows each unit's problems beside it.
  if (values.json || values.cut || values.marks || values.csv)
    for (const { unit, problems } of refused)
      for (const problem of problems)
        io.err(data(`${sanitize(unit.id)}: ${problemTold(problem, tellOf(io))}`));
  return refused.length > 0 ? EXIT.doesNotHold : EXIT.done;

  function showWhy(setOut: SetOut, name: string): number {
    if (name === '?') {
      io.out(data([...setOut.numbers.keys()].join('\n')));
      return EXIT.done;
    }
    const trace = why(setOut, name);
    if ('todo' in trace) return fail(io, [trace], EXIT.badInput);
    const lines = whyLines(trace, { ascii: values.ascii ?? false, ...(values.all && { most: 100_000 }) });
    io.out(asLines(lines.map(sanitize)));
    return EXIT.done;
  }

  async function writeSvg(all: readonly SetOut[], file: string): Promise<number> {
    if (all.length > 1 && new Set(all.map(({ unit }) => unit.mark)).size > 1)
      return fail(io, [raise('setout.no-unit/drawing')], EXIT.badInput);
    const { spot, item, triangle = 'hinge' } = values;
    if (spot !== undefined && !(SPOTS as readonly string[]).includes(spot))
      return fail(io, [raise('setout.option', { spot, spots: SPOTS.join(', ') })], EXIT.badInput);
    if (triangle !== 'hinge' && triangle !== 'handle')
      return fail(io, [raise('setout.option/triangle', { triangle })], EXIT.badInput);
    const svg = drawSvg(elevation(all[0]!), {
      triangles: `apex-at-${triangle}`,
      ...(spot !== undefined && { spot: spot as Spot }),
      ...(item !== undefined && { item }),
    });
    const { writeDocument } = await import('./documents.js');
    const written = writeDocument(realDisk, io.workshop, file, `${svg}\n`);
    if (!written.ok) return fail(io, written.problems, EXIT.badInput);
    io.out(sanitize(written.value));
    return all[0]!.refused ? EXIT.doesNotHold : EXIT.done;
  }
}

const extras = (setOuts: readonly SetOut[]) =>
  setOuts.flatMap((setOut) => setOut.extras.map((extra) => ({ unit: setOut.unit.id, ...extra })));

function noUnit({ name: job, units }: Job, positionals: string): Problem {
  const near = nearest(positionals, [...new Set(units.flatMap(({ id, mark }) => [id, mark]))]);
  return near === undefined
    ? raise('setout.no-unit', { job, positionals })
    : raise('setout.no-unit/near', { job, positionals, near });
}

function noJob(shared: string, word: string): Problem {
  const jobs = join(shared, 'jobs');
  const there = realDisk.stat(jobs)?.kind === 'folder' ? realDisk.list(jobs) : [];
  const names = there.flatMap((file) => /^(.+)\.(?:ya?ml|csv)$/.exec(file)?.[1] ?? []);
  const near = nearest(word, names);
  return near === undefined ? raise('setout.no-job', { word }) : raise('setout.no-job/near', { word, near });
}

function load(workshop: string, word: string): Result<{ job: Job; set: ProfileSet }> {
  const shared = join(workshop, 'shared');
  const path = [
    word,
    ...['', '.yaml', '.yml', '.csv'].map((ending) => join(shared, 'jobs', `${word}${ending}`)),
  ].find(isFile);
  if (path === undefined) return err(noJob(shared, word));
  const job = parseJob(source(path));
  if (!job.ok) return job;
  // A job file from elsewhere may come with its profile sets in a folder beside it.
  const folders = [join(shared, 'profile-sets'), join(dirname(path), '..', 'profile-sets'), dirname(path)];
  const { profileSet } = job.value;
  const setPath = folders
    .flatMap((folder) => ['.yaml', '.yml'].map((ending) => join(folder, `${profileSet}${ending}`)))
    .find(isFile);
  if (setPath === undefined) return err(raise('setout.no-set', { job: job.value.name, profileSet }));
  const set = parseProfileSet(source(setPath));
  return set.ok ? { ok: true, value: { job: job.value, set: set.value }, warnings: [] } : set;

  function source(file: string) {
    const shown = relative(workshop, file);
    return {
      file: shown.startsWith('..') ? file : shown,
      text: textIn(file, readFileSync(file)) ?? readFileSync(file, 'utf8'),
    };
  }
}

const isFile = (path: string): boolean => existsSync(path) && statSync(path).isFile();

/** Whether the unit's journal names another set-out: the last one that stands in it. */
function isOtherwise(workshop: string, job: string, setOut: SetOut): boolean {
  const file = join(workshop, 'logs', job, `${setOut.unit.id}.jsonl`);
  if (!existsSync(file)) return false;
  const frozen = [...readFileSync(file, 'utf8').matchAll(/"setout":"([0-9a-f]{64})"/g)].at(-1)?.[1];
  const now = createHash('sha256').update(frozenSetOut(setOut)).digest('hex');
  return frozen !== undefined && frozen !== now;
}
