/** Disk access for the training commands: the workshop, unit plans, and the practice and sign-off journals. */
import { createInterface } from 'node:readline';
import { err, ok, type Problem, problemTold, type Result } from '../../base/problem.js';
import { linesRetold } from '../../base/retell.js';
import { data, type Reader } from '../../base/words.js';
import type { Procedure } from '../../procedure/model.js';
import { type TitleReader, titleReader, titlesTold } from '../../procedure/titles.js';
import type { Route } from '../../procedure/types.js';
import { builtFromFrozen, builtFromNow, type Plan, planOf, wordsOf } from '../../session/plan.js';
import {
  keepPractice,
  keepSignoff,
  practised,
  readPractice,
  readSignoffs,
  signoffFile,
} from '../../session/practicejournals.js';
import { type Disk, realDisk } from '../../store/disk.js';
import { readEvents } from '../../store/journal.js';
import { listJournals } from '../../store/journals.js';
import { openWorkshop, type Workshop } from '../../store/workshop.js';
import type { PracticeBody, PracticeEvent, SignoffBody, SignoffEvent } from '../../training/events.js';
import { trainingProblem } from '../../training/messages.js';
import type { Dialogue } from '../../tui/practice.js';
import { fold } from '../../unit/fold.js';
import { findPerson } from '../../unit/people.js';
import type { Person } from '../../unit/types.js';
import type { UnitState } from '../../unit/unitstate.js';
import { asJson, EXIT, fail, type Io, saying } from '../io.js';
import { ENGLISH_READER } from '../reader.js';
import { hiddenLines } from '../secret.js';
import { MAKING_SAYS } from '../words/making.js';
import { inEnglish } from '../yesno.js';

export class TrainingShop {
  readonly workshop: Workshop;
  readonly disk: Disk;

  private constructor(workshop: Workshop, disk: Disk) {
    this.workshop = workshop;
    this.disk = disk;
  }

  static open(root: string, disk: Disk = realDisk): Result<TrainingShop> {
    const workshop = openWorkshop(root, disk);
    return workshop.ok ? ok(new TrainingShop(workshop.value, disk)) : workshop;
  }

  person(code: string): Result<Person> {
    const found = findPerson(this.workshop.rules, code);
    if (found) return ok(found);
    const known = this.workshop.rules.people.map((each) => each.id).join(', ');
    return err(trainingProblem('train.person', { code, known }));
  }

  /** A unit of any job, from the current workshop files. */
  plan(unit: string): Result<Plan> {
    const problems: Problem[] = [];
    const known: string[] = [];
    for (const name of this.workshop.jobs.names) {
      const job = this.workshop.jobs.get(name);
      if (!job.ok) {
        problems.push(...job.problems);
        continue;
      }
      known.push(...job.value.value.units.map((each) => each.id));
      const found = job.value.value.units.find((each) => each.id.toLowerCase() === unit.toLowerCase());
      if (!found) continue;
      const from = builtFromNow(this.workshop, name);
      return from.ok ? planOf(from.value, found.id) : from;
    }
    if (problems.length > 0) return err(...problems);
    return err(
      known.length === 0
        ? trainingProblem('train.usage/no-unit', { unit })
        : trainingProblem('train.usage/unit', { unit, units: known.slice(0, 20) }),
    );
  }

  /** The plan's route in the person's language, if the procedure has been translated into it. */
  told(plan: Plan, { language }: Person): Route {
    const words = wordsOf(plan, this.workshop);
    return (
      (language === undefined || language === words.own ? undefined : words.route(language)) ?? plan.route
    );
  }

  /** What the procedures' steps are called in a language. */
  titles(language: string): TitleReader {
    const { procedures, translations } = this.workshop;
    return titleReader(
      procedures.names.flatMap((name) => {
        const own = procedures.get(name);
        const told = own.ok ? translations.of(own.value.value, language) : undefined;
        return own.ok && told?.ok ? [titlesTold(own.value.value, told.value)] : [];
      }),
    );
  }

  /**
   * The one that is named, else the only one; of several that by which all jobs of the profile set are made.
   * @param set named instead; undefined where most units of the workshop's jobs decide
   */
  procedure(name: string | undefined, set?: { readonly name: string | undefined }): Result<Procedure> {
    const { names } = this.workshop.procedures;
    if (name === undefined && names.length > 1 && set && set.name === undefined) {
      const sets = this.workshop.profileSets.names;
      if (sets.length > 1) return err(trainingProblem('train.set', { sets }));
    }
    const wanted = name ?? (names.length === 1 ? names[0] : this.#likely(set?.name));
    if (wanted === undefined)
      return err(
        names.length === 0
          ? trainingProblem('train.usage/no-procedure')
          : trainingProblem('train.usage/procedure', { names }),
      );
    const loaded = this.workshop.procedures.get(wanted);
    return loaded.ok ? ok(loaded.value.value) : loaded;
  }

  /** By which jobs of the set are made, if by one; without a set, by which most units are. */
  #likely(set: string | undefined): string | undefined {
    const units = new Map<string, number>();
    for (const each of this.workshop.jobs.names) {
      const job = this.workshop.jobs.get(each);
      if (!job.ok) continue;
      const { procedure, profileSet, units: made } = job.value.value;
      if (set === undefined || profileSet === set)
        units.set(procedure, (units.get(procedure) ?? 0) + made.length);
    }
    const [first, second] = [...units].sort(([, a], [, b]) => b - a);
    // Of a set that no job takes yet nothing can be told.
    if (set !== undefined && first === undefined) return this.#likely(undefined);
    if (set !== undefined) return second === undefined ? first?.[0] : undefined;
    return first && first[1] !== second?.[1] ? first[0] : undefined;
  }

  /** Every begun unit, folded from its journal; an unreadable one gives a warning and is skipped. */
  states(): { readonly states: readonly UnitState[]; readonly warnings: readonly Problem[] } {
    const states: UnitState[] = [];
    const warnings: Problem[] = [];
    for (const { job, unit } of listJournals(this.disk, this.workshop.root, undefined, [])) {
      const events = readEvents(this.disk, this.workshop.root, job, unit);
      if (!events.ok) {
        warnings.push(...events.problems);
        continue;
      }
      const opened = events.value[0];
      if (opened?.kind !== 'opened') continue;
      const from = builtFromFrozen(this.disk, this.workshop.root, opened);
      const plan = from.ok ? planOf(from.value, unit) : from;
      if (plan.ok)
        states.push(fold(plan.value.route, events.value, { problems: plan.value.setOut.problems }));
      else warnings.push(...plan.problems);
    }
    return { states, warnings };
  }

  practice(person: string): Result<readonly PracticeEvent[]> {
    return readPractice(this.disk, this.workshop.root, person);
  }

  signoffs(): Result<readonly SignoffEvent[]> {
    return readSignoffs(this.disk, this.workshop.root);
  }

  keepPractice(
    person: string,
    bodies: readonly PracticeBody[],
    at: string,
  ): Result<readonly PracticeEvent[]> {
    return keepPractice(this.#place(), person, bodies, at);
  }

  keepSignoff(body: SignoffBody, by: string, at: string): Result<readonly SignoffEvent[]> {
    return keepSignoff(this.#place(), this.workshop.rules.name, body, by, at);
  }

  /** The file in which sign-offs are kept here. */
  get signoffFile(): string {
    return signoffFile(this.#place());
  }

  #place() {
    return { disk: this.disk, root: this.workshop.root, bench: this.workshop.bench };
  }

  /** Verifies the hash chain of every practice and sign-off journal. */
  verify(): { readonly journals: number; readonly events: number; readonly problems: readonly Problem[] } {
    const problems: Problem[] = [];
    let journals = 0;
    let events = 0;
    const take = (read: Result<readonly unknown[]>): void => {
      if (!read.ok) problems.push(...read.problems);
      else if (read.value.length > 0) events += read.value.length;
      journals += read.ok && read.value.length === 0 ? 0 : 1;
    };
    take(this.signoffs());
    for (const person of this.practised()) take(this.practice(person));
    return { journals, events, problems };
  }

  practised(): string[] {
    return practised(this.disk, this.workshop.root);
  }
}

// Saves practice results if a person is named.

/** Appends to the person's practice journal. Returns the exit code on failure. */
export function keep(
  shop: TrainingShop,
  person: string | undefined,
  bodies: readonly PracticeBody[],
  now: string,
  io: Io,
): number | undefined {
  if (bodies.length === 0) return undefined;
  if (person === undefined) {
    io.err(saying(io, MAKING_SAYS)('train-unkept'));
    return undefined;
  }
  const kept = shop.keepPractice(person, bodies, now);
  return kept.ok ? undefined : failed(kept.problems, io);
}

/** Prints the problems; disk failures have their own exit code. */
export function failed(problems: readonly Problem[], io: Io): number {
  return fail(
    io,
    problems,
    problems.some((problem) => problem.id.startsWith('disk.')) ? EXIT.resource : EXIT.badInput,
  );
}

// Line input, the same from a person or a script, with a prompt only for a person.

/** What a drill gets besides its arguments; replaced in tests. */
export interface Session {
  readonly lines: AsyncIterable<string>;
  /** Whether a person is at a terminal. */
  readonly person: boolean;
  /** Runs a dialogue full-screen; absent if there is no terminal or plain lines are wanted. */
  readonly fullScreen?: (
    talk: Conversation,
    opening: readonly string[],
    reader: Reader,
    typed: (line: string) => string,
  ) => Promise<boolean>;
  secret(): Promise<string | undefined>;
  /** UTC, ISO 8601 with milliseconds. */
  now(): string;
  seed(): number;
}

export type Conversation = Dialogue;

/** Lines for whoever practises, in their language. */
export const sayTo = (io: Io, lines: readonly string[]): void =>
  io.out(data(lines.map((text) => linesRetold(text, io.reader ?? ENGLISH_READER)).join('\n')));

/** Text, or with `json` one JSON object per line. Returns whether every line was understood. */
export async function converse(
  talk: Conversation,
  opening: readonly string[],
  session: Session,
  io: Io,
  json: boolean,
): Promise<boolean> {
  let understood = true;
  const reader = io.reader ?? ENGLISH_READER;
  const typed = (line: string) => inEnglish(line, reader.tell);
  if (session.fullScreen && !json) return session.fullScreen(talk, opening, reader, typed);
  if (json) io.out(asJson({ task: opening }));
  else sayTo(io, opening);
  if (talk.over) return understood;
  const prompt = () => {
    if (session.person && !json)
      process.stdout.write(`${reader.retell(talk.prompt.trim())}${talk.prompt.trim() === '' ? '' : ' '}> `);
  };
  prompt();
  for await (const raw of session.lines) {
    const line = raw.trim();
    if (line === '') {
      prompt();
      continue;
    }
    if (/^(quit|exit)$/i.test(line)) break;
    if (/^(help|\?)$/i.test(line)) {
      if (json) io.out(asJson({ ok: true, says: talk.help }));
      else sayTo(io, talk.help);
      prompt();
      continue;
    }
    const answer = talk.type(typed(line));
    if ('problem' in answer) {
      understood = false;
      const { id, text, todo } = answer.problem;
      if (json) io.out(asJson({ ok: false, refused: { id, text, todo } }));
      else io.err(problemTold(answer.problem, io.reader?.tell));
    } else if (json) io.out(asJson({ ok: true, says: answer.says }));
    else if (answer.says.length > 0) sayTo(io, answer.says);
    if (talk.over) break;
    prompt();
  }
  return understood;
}

/** Defaults to standard input and the wall clock. Loads the full-screen code only if there is a terminal. */
export function realSession(options: {
  readonly plain: boolean;
  readonly input?: NodeJS.ReadableStream | undefined;
  /** As in `Workshop`. */
  readonly zone: string | undefined;
}): Session {
  const { stdout, env, platform } = process;
  const stdin = options.input ?? process.stdin;
  const person = stdin === process.stdin && process.stdin.isTTY === true && stdout.isTTY === true;
  const whole = person && !options.plain && env.TERM !== 'dumb';
  return {
    lines: {
      // Opened when the first line is requested: until then the full screen owns standard input.
      [Symbol.asyncIterator]: () =>
        createInterface({ input: stdin, crlfDelay: Number.POSITIVE_INFINITY })[Symbol.asyncIterator](),
    },
    person,
    ...(whole
      ? {
          fullScreen: async (talk, opening, reader, typed) => {
            // The terminal library draws nothing while CI is set.
            env.CI = 'false';
            const [{ runTalk }, { themeFrom }] = await Promise.all([
              import('../../tui/practice.js'),
              import('../../tui/theme.js'),
            ]);
            return runTalk(talk, opening, { ...themeFrom(env, platform), zone: options.zone }, reader, typed);
          },
        }
      : {}),
    secret: () => secretLine(stdin, person),
    now: () => new Date().toISOString(),
    seed: () => Date.now() % 1_000_000,
  };
}

/** The first line of input; without echo at a terminal. */
function secretLine(from: NodeJS.ReadableStream, person: boolean): Promise<string | undefined> {
  const input = hiddenLines(from, person);
  return new Promise((resolve) => {
    input.once('line', (line) => {
      resolve(line);
      input.close();
    });
    input.once('close', () => resolve(undefined));
  });
}
