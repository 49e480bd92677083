/**
 * A workshop in which something went wrong, so that there is something to ask: two units built through the bench's real
 * ports, with a concession, a failure that was made again, another calibration and another limit in between, a complaint
 * after release, and a day book. All data is invented.
 */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { problemText } from '../../src/base/problem.js';
import { proveSetups } from '../../src/session/setups.js';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { openWorkshop } from '../../src/store/workshop.js';
import type { Action } from '../../src/unit/actions.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { newPicture } from '../picture.js';
import { must } from '../procedure/samples.js';

const JOB = 'quay-end';
const BENCH = 'bench-t';
/** PINs of the demonstration's invented people, as shared/people.yaml says. */
const PINS = { ot: '2705', mv: '4168' };

const JOB_FILE = `format: pinchrod-job 1
name: ${JOB}
title: Quay End
customer: N. Crowe (invented)
profile_set: w52
procedure: casement
revision: C
glass: 4-16-4
outside_colour: slate grey
inside_colour: white
units:
${['Q1', 'Q2'].map((mark) => `  - {mark: ${mark}, width: 900, height: 1200, room: hall, layout: {light: fixed}}\n`).join('')}`;

/** What goes wrong where. */
interface Trouble {
  /** Number of the snag that was conceded. */
  readonly conceded: number;
  /** The check that failed once and was made again. */
  readonly failed: string;
}

export interface Troubled {
  readonly root: string;
  readonly first: Trouble;
}

export function troubledWorkshop(): Troubled {
  const root = join(mkdtempSync(join(tmpdir(), 'pinchrod-')), 'shop');
  const made = makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), root);
  if (!made.ok) throw new Error(made.problems.map(problemText).join('\n'));
  writeFileSync(join(root, `shared/jobs/${JOB}.yaml`), JOB_FILE);
  edit(join(root, 'shared/workshop.yaml'), /# testReport: ""/, 'testReport: "report TT-7 (invented)"');
  const first = build(root, 'Q1-1', Date.UTC(2026, 2, 2, 8), undefined);
  // In between a tape is calibrated, and a limit is made tighter.
  edit(join(root, 'shared/limits.yaml'), /(cut\.plane:[\s\S]*?most: )0\.2/, '$10.15');
  edit(join(root, 'shared/instruments.yaml'), /(id: T1[\s\S]*?calibrated: )[\d-]+/, '$12026-03-20');
  // And what failed at the first unit fails at the second again.
  build(root, 'Q2-1', Date.UTC(2026, 3, 1, 8), first.failed);
  return { root, first };
}

function edit(file: string, from: RegExp, to: string): void {
  const text = readFileSync(file, 'utf8');
  const made = text.replace(from, to);
  if (made === text) throw new Error(`nothing to edit in ${file}`);
  writeFileSync(file, made);
}

/** @param again the check that fails once; undefined: the unit with all the trouble */
function build(root: string, unit: string, from: number, again: string | undefined): Trouble {
  let clock = from;
  const opened = realPorts({ workshop: root, clock: () => clock, bench: BENCH });
  if (!opened.ok) throw new Error(opened.problems.map(problemText).join('\n'));
  const ports = opened.value;
  proveSetups(ports);
  if (ports.open(`${JOB}/${unit}`).kind !== 'open') throw new Error('cannot open');
  const limits = must(openWorkshop(root, realDisk)).limits;
  let person: string | undefined;
  let inHand: string | undefined;
  let conceded: number | undefined;
  let failed: string | undefined;
  const trouble = again === undefined;
  const act = (action: Action) => done(ports, action, person, inHand);
  for (let i = 0; i < 3000; i++) {
    const world = ports.world();
    const { state } = world.open!;
    const context = {
      now: world.now,
      bench: BENCH,
      person,
      inHand,
      workshop: world.rules,
      instruments: world.instruments,
    };
    const move = nextMove(state, context, { pins: PINS, evidence: 'photo.jpg' });
    if (move.kind === 'finished') {
      if (trouble)
        act({
          do: 'snag',
          severity: 'minor',
          cause: 'transport',
          text: 'scratch on the sill, seen at delivery',
        });
      ports.close();
      return { conceded: conceded ?? 0, failed: failed! };
    }
    if (move.kind === 'stuck') throw new Error(move.why);
    clock = move.kind === 'wait' ? Date.parse(move.until) + 1000 : clock + 60_000;
    if (move.kind === 'wait') continue;
    const { action } = move;
    if ('evidence' in action && action.evidence) newPicture(join(root, 'photo.jpg'));
    if (action.do === 'person') person = action.person;
    else if (action.do === 'instrument') inHand = action.instrument;
    else if (action.do === 'answer' && typeof action.value === 'string') {
      const checks = state.route.steps.flatMap((step) => step.checks);
      const check = checks.find((each) => each.id === action.check);
      const limit = check?.limits[0];
      const band = limit === undefined ? undefined : limits.byId.get(limit)?.bands[0];
      const deviates =
        check?.kind === 'number' && check.expect !== undefined && check.against === 'deviation';
      if (
        trouble &&
        conceded === undefined &&
        deviates &&
        !check.safety &&
        band?.high !== undefined &&
        band.upto === undefined
      ) {
        act({ ...action, value: String(check.expect! + 1.6 * band.high), confirmed: true });
        const snag = act({
          do: 'snag',
          check: action.check,
          severity: 'minor',
          cause: 'saw stop',
          text: 'one piece is long',
        });
        conceded = snag;
        person = 'ot';
        act({
          do: 'decide',
          snag,
          disposition: 'concession',
          limit,
          reason: 'covered by the bead',
          pin: PINS.ot,
        } as Action);
        act({ do: 'close', snag, note: 'seen' });
      } else if (
        failed === undefined &&
        (trouble
          ? conceded !== undefined && check?.kind === 'go-no-go' && !check.safety
          : action.check === again)
      ) {
        failed = action.check;
        act({ ...action, value: 'no' });
        act(action as Action);
      } else act(action as Action);
    } else act(action as Action);
  }
  throw new Error('never finished');
}

/** Number of the first line written. */
function done(
  ports: RealPorts,
  action: Action,
  person: string | undefined,
  inHand: string | undefined,
): number {
  const acted = ports.act(action, { person, inHand });
  if (acted.kind === 'refused' || acted.kind === 'failed')
    throw new Error(`${JSON.stringify(action)}: ${problemText(acted.problem)}`);
  if (acted.kind === 'ask') throw new Error(JSON.stringify(acted.question));
  return acted.events[0]!.n;
}
