/** What the training commands need of the disk: the workshop, a unit's plan, the practice and sign-off journals. */

import { bad, good, type Problem, problemText, type Result } from '../../base/problem.js';
import type { Procedure } from '../../procedure/model.js';
import type { Route } from '../../procedure/types.js';
import { builtFromFrozen, builtFromNow, type Plan, planOf, wordsOf } from '../../session/plan.js';
import {
  keepPractice,
  keepSignoff,
  practised,
  readPractice,
  readSignoffs,
} from '../../session/practicejournals.js';
import { type Disk, realDisk } from '../../store/disk.js';
import { readEvents } from '../../store/journal.js';
import { listJournals } from '../../store/journals.js';
import { openWorkshop, type Workshop } from '../../store/workshop.js';
import type { PracticeBody, PracticeEvent, SignoffBody, SignoffEvent } from '../../training/events.js';
import { raise } from '../../training/messages.js';
import { fold } from '../../unit/fold.js';
import { findPerson } from '../../unit/people.js';
import type { UnitState } from '../../unit/unitstate.js';
import type { Person } from '../../unit/workshop.js';
import { EXIT, type Io } from '../io.js';

export class TrainingShop {
  readonly workshop: Workshop;
  readonly disk: Disk;

  private constructor(workshop: Workshop, disk: Disk) {
    this.workshop = workshop;
    this.disk = disk;
  }

  static open(root: string, disk: Disk = realDisk): Result<TrainingShop> {
    const workshop = openWorkshop(root, disk);
    return workshop.ok ? good(new TrainingShop(workshop.value, disk)) : workshop;
  }

  person(code: string): Result<Person> {
    const found = findPerson(this.workshop.rules, code);
    if (found) return good(found);
    const known = this.workshop.rules.people.map((each) => each.id).join(', ');
    return bad(
      raise('train.person', `"${code}" is nobody in this workshop.`, undefined, `Known are: ${known}.`),
    );
  }

  /** A unit of any job, from the workshop's files as they are now. */
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
    if (problems.length > 0) return bad(...problems);
    return bad(
      raise(
        'train.usage',
        `No job has a unit "${unit}".`,
        undefined,
        `There are: ${known.slice(0, 20).join(', ') || 'none'}.`,
      ),
    );
  }

  /** The plan's route in the person's own language, where the procedure was translated into it. */
  told(plan: Plan, { language }: Person): Route {
    const words = wordsOf(plan, this.workshop);
    return (
      (language === undefined || language === words.own ? undefined : words.route(language)) ?? plan.route
    );
  }

  procedure(name: string | undefined): Result<Procedure> {
    const { names } = this.workshop.procedures;
    const wanted = name ?? (names.length === 1 ? names[0] : undefined);
    if (wanted === undefined)
      return bad(
        raise(
          'train.usage',
          'Which procedure is meant?',
          undefined,
          `Name one with --procedure: ${names.join(', ') || 'there is none'}.`,
        ),
      );
    const loaded = this.workshop.procedures.get(wanted);
    return loaded.ok ? good(loaded.value.value) : loaded;
  }

  /** Every begun unit as its own journal says; one that cannot be read is a warning, not an end. */
  states(): { readonly states: readonly UnitState[]; readonly warnings: readonly Problem[] } {
    const states: UnitState[] = [];
    const warnings: Problem[] = [];
    for (const { job, unit } of listJournals(this.disk, this.workshop.root)) {
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

  #place() {
    return { disk: this.disk, root: this.workshop.root, bench: this.workshop.bench };
  }

  /** Holds every practice and sign-off journal against its chain. */
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

/** Keeping what was practised, where a person is named. */

/** Appends to the person's practice journal. Gives the exit code where that failed. */
export function keep(
  shop: TrainingShop,
  person: string | undefined,
  bodies: readonly PracticeBody[],
  now: string,
  io: Io,
): number | undefined {
  if (bodies.length === 0) return undefined;
  if (person === undefined) {
    io.err('Not kept: nobody was named. Add --person ID to keep what is practised.');
    return undefined;
  }
  const kept = shop.keepPractice(person, bodies, now);
  return kept.ok ? undefined : failed(kept.problems, io);
}

/** Says the problems; a disk that fails is another code than bad input. */
export function failed(problems: readonly Problem[], io: Io): number {
  for (const problem of problems) io.err(problemText(problem));
  return problems.some((problem) => problem.id.startsWith('disk.')) ? EXIT.resource : EXIT.badInput;
}
