/** `lint`: checks every workshop file, reporting each problem with its file, line and column, and what to do. */
import { join } from 'node:path';
import { isSpoken, LANGUAGES } from '../base/languages.js';
import {
  type Place,
  type Problem,
  problemFactory,
  problemText,
  problemTold,
  saidAs,
} from '../base/problem.js';
import type { Message } from '../base/words.js';
import { coverageOf, coverageText } from '../procedure/coverage.js';
import { lintProcedure, neverReached, sizesRead } from '../procedure/lint.js';
import { textProblems } from '../procedure/linttexts.js';
import { type Procedure, stepsOf } from '../procedure/model.js';
import type { Route } from '../procedure/types.js';
import { limitsOf } from '../procedure/wanted.js';
import { BoardReader, materialsOf } from '../session/board.js';
import { instrumentProblems, markProblems, sharedCodes, unusedLimits } from '../session/lintshop.js';
import { builtFromNow, planOf, unitReader } from '../session/plan.js';
import { readDaybook } from '../store/daybook.js';
import { realDisk } from '../store/disk.js';
import { openJobs } from '../store/jobs.js';
import { openWorkshop, PEOPLE_FILE, type Workshop } from '../store/workshop.js';
import { sha256 } from '../unit/chain.js';
import { stillCounting } from '../unit/daybook.js';
import type { Person } from '../unit/types.js';
import { lintProfileSet, neverMade } from '../window/lintset.js';
import { setOut } from '../window/setout.js';
import { COMMAND_MESSAGES, commandWords } from './catalogue.js';
import { HELP } from './help.js';
import { asJson, asLines, EXIT, fail, type Io, readOptions, retold, tellOf, usageOf } from './io.js';
import { JobLines, oncePerFault } from './lintfaults.js';
import { TEXTS } from './reader.js';

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(
    args,
    io,
    HELP.lint,
    { json: { type: 'boolean' }, coverage: { type: 'string' }, words: { type: 'string' } },
    { most: Number.POSITIVE_INFINITY },
  );
  if (typeof read === 'number') return read;
  if (read.values.words !== undefined) return words(read.values.words, read.values.json === true, io);
  const opened = openWorkshop(io.workshop, realDisk);
  if (!opened.ok) return tell(opened.problems, [], read.values.json === true, io);
  if (read.values.coverage !== undefined) return coverage(opened.value, read.values.coverage, io);
  const wanted = new Set(read.positionals.map((file) => file.replace(/^\.\//, '').replaceAll('\\', '/')));
  const { broken, unwise } = problemsOf(opened.value);
  unwise.push(...opened.warnings.filter(({ id }) => id.startsWith('pins.')));
  const known = knownFiles(opened.value);
  const strange = [...wanted].find(
    (file) => !known.some((each) => each === file) && !realDisk.stat(join(io.workshop, file)),
  );
  if (strange !== undefined) {
    return fail(io, [raise('lint.no-file', { file: strange })], EXIT.badInput);
  }
  const asked = (problem: Problem) =>
    wanted.size === 0 || (problem.place !== undefined && wanted.has(problem.place.file));
  const json = read.values.json === true;
  const code = tell(broken.filter(asked), unwise.filter(asked), json, io);
  if (code === EXIT.done && !json && wanted.size === 0)
    for (const message of [...stillToDo(opened.value), ...limitsUnsaid(opened.value)])
      io.out(tellOf(io)(message));
  return code;
}

/** What is not wrong, but stands between this workshop and a record that counts. */
function stillToDo({ rules, jobs, profileSets }: Workshop): Message[] {
  const highest = ({ levels }: Person) => Math.max(...Object.values(levels));
  const releasers = rules.people
    .filter((person) => highest(person) >= 4)
    .sort((a, b) => highest(b) - highest(a));
  const used = new Set(
    jobs.names.flatMap((name) => {
      const job = jobs.get(name);
      return job.ok ? [job.value.value.profileSet] : [];
    }),
  );
  const invented = [...used].filter((name) => {
    const set = profileSets.get(name);
    return set.ok && set.value.value.invented;
  });
  return [
    ...(releasers.length > 0 && releasers.every(({ pin }) => pin === undefined)
      ? [commandWords('lint-no-pin', { person: releasers[0]!.id })]
      : []),
    ...(invented.length > 0 ? [commandWords('lint-invented', { sets: invented })] : []),
  ];
}

/** Where somebody once stood for the limits, and they have changed since. */
function limitsUnsaid({ root, sources }: Workshop): Message[] {
  const read = readDaybook(realDisk, root);
  const last = read.ok ? stillCounting(read.value).findLast(({ kind }) => kind === 'limits') : undefined;
  return last?.kind === 'limits' && last.sources.limits !== sha256(sources.limits.text)
    ? [commandWords('lint-limits-unsaid')]
    : [];
}

/** How far the program's own words are told in a language. */
async function words(language: string, json: boolean, io: Io): Promise<number> {
  if (!isSpoken(language))
    return fail(
      io,
      [
        raise('command.usage/language', {
          language,
          spoken: ['en', ...LANGUAGES],
          usage: usageOf(HELP.lint),
        }),
      ],
      EXIT.badInput,
    );
  const [{ CATALOGUES }, { countMessage, countWords }, texts] = await Promise.all([
    import('./allwords.js'),
    import('./wordscount.js'),
    TEXTS[language](),
  ]);
  const counts = countWords(CATALOGUES, texts);
  if (json) io.out(asJson(counts));
  else
    for (const count of counts)
      for (const message of [
        countMessage(count),
        ...(count.missing.length > 0 ? [commandWords('words-named', { ids: count.missing })] : []),
        ...(count.changed.length > 0 ? [commandWords('words-changed', { ids: count.changed })] : []),
      ])
        io.out(tellOf(io)(message));
  return counts.some(({ missing, changed }) => missing.length + changed.length > 0)
    ? EXIT.doesNotHold
    : EXIT.done;
}

/** What nobody can mend is told, and holds nothing up. */
const isRemark = ({ id }: Problem): boolean => id.startsWith('procedure.reach-unknown');

function tell(broken: readonly Problem[], all: readonly Problem[], json: boolean, io: Io): number {
  const unwise = all.filter((problem) => !isRemark(problem));
  const remarks = all.filter(isRemark);
  const code = broken.length > 0 ? EXIT.badInput : unwise.length > 0 ? EXIT.doesNotHold : EXIT.done;
  if (json)
    io.out(
      asJson({
        holds: code === EXIT.done,
        problems: [...broken, ...unwise],
        ...(remarks.length > 0 ? { undecided: remarks } : {}),
      }),
    );
  else for (const remark of remarks) io.out(problemTold(remark, io.reader?.tell));
  if (json) return code;
  if (code === EXIT.done) io.out(tellOf(io)(commandWords('lint-nothing')));
  else {
    for (const problem of [...broken, ...unwise]) io.out(problemTold(problem, io.reader?.tell));
    const count = broken.length + unwise.length;
    io.out(tellOf(io)(commandWords('lint-count', { n: count })));
  }
  return code;
}

/** `broken` problems make a file unusable; `unwise` ones do not. */
function problemsOf(workshop: Workshop): { broken: Problem[]; unwise: Problem[] } {
  const broken: Problem[] = [...workshop.problems()];
  const unwise: Problem[] = [];
  const routes = new Map<string, Route[]>();
  const figures = new Map<string, Set<string>>();
  /** Sets with a formula that gives wrong numbers: what these make of a unit is told once it is mended. */
  const miscounting = new Set<string>();
  const read = new Set(
    workshop.procedures.names.flatMap((name) => {
      const procedure = workshop.procedures.get(name);
      return procedure.ok ? [...sizesRead(procedure.value.value)] : [];
    }),
  );
  for (const name of workshop.profileSets.names) {
    const set = workshop.profileSets.get(name);
    if (!set.ok) continue;
    const found = lintProfileSet(set.value.value, read);
    unwise.push(...found);
    if (found.some(({ id }) => id === 'set.units' || id === 'set.number')) miscounting.add(name);
  }
  for (const name of workshop.jobs.names) {
    const from = builtFromNow(workshop, name);
    const lines = new JobLines(workshop, name);
    if (!from.ok) {
      broken.push(...from.problems.map((problem) => lines.placed(problem)));
      continue;
    }
    const { job, procedure, set } = from.value;
    const lost = lostMarks(procedure);
    const unmade = neverMade(set);
    // The units of one mark are alike.
    for (const unit of job.units.filter(({ number }) => number === 1)) {
      const plan = planOf(from.value, unit.id);
      const made = plan.ok ? plan.value.setOut : setOut(unit, set);
      // What a fault of the set makes of a unit is told of the set.
      const ofSet = made.problems.filter(({ id, place }) => id.startsWith('setout.') && place !== undefined);
      const told = ofSet.length > 0 ? ofSet : made.problems;
      for (const problem of miscounting.has(set.name) ? [] : told)
        unwise.push(aboutUnit(problem, unit.id, lines.ofUnit(unit)));
      // How a unit that cannot be made would be built is not told beside the reason.
      if (!plan.ok) {
        if (!made.refused) broken.push(...plan.problems.filter(({ text }) => !isLost(text, unmade)));
      } else {
        const { route } = plan.value;
        const kinds = new Set(
          set.file.marks.flatMap(({ kind, wall }) => (wall && !lost.has(kind) ? [kind] : [])),
        );
        for (const problem of markProblems(made, route, kinds))
          unwise.push({ ...problem, place: { file: procedure.file } });
        routes.set(procedure.name, [...(routes.get(procedure.name) ?? []), route]);
      }
    }
    figures.set(
      procedure.name,
      new Set([...(figures.get(procedure.name) ?? []), ...Object.keys(set.figures)]),
    );
  }
  for (const name of workshop.procedures.names) {
    const procedure = workshop.procedures.get(name);
    if (!procedure.ok) continue;
    const known = figures.get(name);
    unwise.push(
      ...lintProcedure(procedure.value.value, {
        limits: workshop.limits,
        ...(workshop.setups ? { setups: workshop.setups.map(({ id }) => id) } : {}),
        people: { persons: workshop.rules.people, solo: workshop.rules.soloRelease !== undefined },
        routes: routes.get(name) ?? [],
        ...(known ? { figures: known } : {}),
      }),
    );
  }
  const named = workshop.procedures.names.flatMap((name) => {
    const procedure = workshop.procedures.get(name);
    return procedure.ok
      ? stepsOf(procedure.value.value).flatMap(({ checks }) => checks.flatMap(limitsOf))
      : [];
  });
  unwise.push(
    ...instrumentProblems(workshop, [...routes.values()].flat(), new Date().toISOString()),
    ...unusedLimits(workshop, new Set(named)),
    ...sharedCodes(workshop, lotsIn(workshop.root)),
  );
  const languages = languageProblems(workshop);
  broken.push(...languages.broken);
  unwise.push(...languages.unwise);
  return oncePerFault(unique(broken), unique(unwise));
}

/** Lots named in journals. A damaged journal is reported by \`verify\`, not here. */
function lotsIn(root: string) {
  const board = new BoardReader(realDisk, root).read(
    openJobs(root, realDisk),
    new Date().toISOString(),
    unitReader(realDisk, root),
  );
  return materialsOf(board).lots;
}

/** A file problem found through two jobs counts once. */
function unique(problems: readonly Problem[]): Problem[] {
  return [...new Map(problems.map((problem) => [problemText(problem), problem])).values()];
}

const aboutUnit = (problem: Problem, unit: string, place: Place): Problem => {
  const placed = { ...problem, place: problem.place ?? place };
  return problem.text.includes(unit)
    ? placed
    : saidAs(placed, commandWords('about-unit', { unit, said: problem.said }));
};

/** A formula that asks for a part which the set never makes: told of the set. */
const isLost = (text: string, unmade: readonly string[]): boolean =>
  unmade.some((role) => text.endsWith(`No such key: ${role}.`));

/** Kinds of marks that only steps make which no unit gets: told of the step. */
const lostMarks = (procedure: Procedure): ReadonlySet<string> =>
  new Set(
    neverReached(procedure).flatMap(({ marks }) => marks.map((claim) => claim.slice(claim.indexOf('/') + 1))),
  );

function knownFiles(workshop: Workshop): string[] {
  const translated = workshop.translations.names.map(({ file }) => file);
  const shelves = [workshop.profileSets, workshop.procedures, workshop.jobs];
  return [...translated, ...shelves].flatMap((shelf) =>
    typeof shelf === 'string'
      ? [shelf]
      : shelf.names.flatMap((name) => {
          const loaded = shelf.get(name);
          return loaded.ok
            ? [loaded.value.source.file]
            : loaded.problems.flatMap(({ place }) => (place ? [place.file] : []));
        }),
  );
}

function coverage(workshop: Workshop, jobName: string, io: Io): number {
  const from = builtFromNow(workshop, jobName);
  if (!from.ok) return tell(from.problems, [], false, io);
  const routes: Route[] = [];
  for (const unit of from.value.job.units) {
    const plan = planOf(from.value, unit.id);
    if (!plan.ok) return tell(plan.problems, [], false, io);
    routes.push(plan.value.route);
  }
  io.out(asLines(coverageText(coverageOf(from.value.procedure, routes)).map((line) => retold(io, line))));
  return EXIT.done;
}

// Problems in the translations of procedures and in the languages that people read.

const raise = problemFactory(COMMAND_MESSAGES);

/** For a `broken` translation the bench falls back to the procedure's own language. */
export function languageProblems(workshop: Workshop): { broken: Problem[]; unwise: Problem[] } {
  const broken: Problem[] = [];
  const unwise: Problem[] = [];
  const { names } = workshop.translations;
  for (const { procedure, language, file } of names) {
    const own = workshop.procedures.get(procedure);
    if (!own.ok) {
      if (!workshop.procedures.names.includes(procedure))
        broken.push(
          raise(
            'lint.translation-alone',
            { procedure },
            {
              file,
            },
          ),
        );
      continue;
    }
    const made = workshop.translations.of(own.value.value, language);
    if (!made) continue;
    if (!made.ok) broken.push(...made.problems);
    // Language rules apply to each translation; problems with steps are reported by the procedure's own lint.
    else
      unwise.push(...made.warnings, ...textProblems(made.value).filter(({ place }) => place?.file === file));
  }
  const spoken = new Set([
    ...names.map(({ language }) => language),
    ...workshop.procedures.names.flatMap((name) => {
      const own = workshop.procedures.get(name);
      return own.ok ? [own.value.value.language] : [];
    }),
  ]);
  for (const { name, language } of workshop.rules.people)
    if (language !== undefined && !spoken.has(language))
      unwise.push(
        raise(
          'lint.language-none',
          { name, language },
          {
            file: PEOPLE_FILE,
          },
        ),
      );
  return { broken, unwise };
}
