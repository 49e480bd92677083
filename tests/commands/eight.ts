/** A workshop with a job of eight units of every kind, all built to the end by the bench's real ports. All data is invented. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { problemText } from '../../src/base/problem.js';
import { proveSetups } from '../../src/session/setups.js';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { newBenchKey } from '../../src/store/key.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { newPicture } from '../picture.js';

export const JOB = 'mill-row';
const BENCH = 'bench-f';
const PINS = { ot: '2705', mv: '4168' };

const LAYOUTS = [
  '{light: fixed}',
  '{light: top-hung, opens: out}',
  '{light: side-hung, hinge: left, viewed_from: outside, opens: out}',
  '{light: side-hung, hinge: left, viewed_from: inside, opens: out}',
  '{split: upright, joint: ported, at: [700], parts: [{light: fixed}, {light: top-hung, opens: out}]}',
  '{light: fixed}',
  '{light: top-hung, opens: out}',
  '{light: fixed}',
];
const units = (width: number) =>
  LAYOUTS.map(
    (layout, i) => `  - mark: M${i + 1}
    width: ${i === 4 ? 1400 : i === 2 || i === 3 ? 650 : width}
    height: ${i === 2 || i === 3 ? 1150 : 700}
    room: room ${i + 1}
    layout: ${layout}
`,
  ).join('');

export const jobFile = ({ revision = 'B', customer = 'A. Finch (invented)', width = 800 } = {}): string =>
  `format: pinchrod-job 1
name: ${JOB}
title: Mill Row, east side
customer: ${customer}
profile_set: w52
procedure: casement
revision: ${revision}
glass: 4-16-4
outside_colour: slate grey
inside_colour: white
units:
${units(width)}`;

export const UNITS = LAYOUTS.map((_, i) => `M${i + 1}-1`);

/** Gives the workshop's folder; every unit is finished and signed there. */
export function eightUnits(): string {
  const root = join(mkdtempSync(join(tmpdir(), 'pinchrod-')), 'shop');
  const made = makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), root);
  if (!made.ok) throw new Error(made.problems.map(problemText).join('\n'));
  writeFileSync(join(root, `shared/jobs/${JOB}.yaml`), jobFile());
  if (!newBenchKey(realDisk, root, BENCH).ok) throw new Error('no key');
  const clock = { ms: Date.UTC(2026, 2, 2, 8) };
  for (const unit of UNITS) buildUnit(root, unit, clock);
  return root;
}

export function portsAt(root: string, clock: { ms: number }): RealPorts {
  const ports = realPorts({ workshop: root, clock: () => clock.ms, bench: BENCH });
  if (!ports.ok) throw new Error(ports.problems.map(problemText).join('\n'));
  return ports.value;
}

/** Builds a unit as far as `until` says, else to its end. */
export function buildUnit(
  root: string,
  unit: string,
  clock: { ms: number },
  until: (done: number) => boolean = () => false,
): void {
  const ports = portsAt(root, clock);
  proveSetups(ports);
  const opened = ports.open(`${JOB}/${unit}`);
  if (opened.kind === 'failed') throw new Error(problemText(opened.problem));
  let person: string | undefined;
  let inHand: string | undefined;
  for (;;) {
    const world = ports.world();
    const state = world.open!.state;
    if (until(state.done)) break;
    const context = {
      now: world.now,
      bench: BENCH,
      person,
      inHand,
      workshop: world.rules,
      instruments: world.instruments,
    };
    const move = nextMove(state, context, { pins: PINS, evidence: 'photo.jpg' });
    if (move.kind === 'finished') break;
    if (move.kind === 'stuck') throw new Error(`${unit}: ${move.why}`);
    if (move.kind === 'wait') {
      clock.ms = Date.parse(move.until) + 1000;
      continue;
    }
    clock.ms += 30_000;
    const { action } = move;
    if (action.do === 'person') person = action.person;
    else if (action.do === 'instrument') inHand = action.instrument;
    else {
      if ('evidence' in action && action.evidence) newPicture(join(root, 'photo.jpg'));
      let acted = ports.act(action, { person, inHand });
      // Machines whose first-off has run out are proven again.
      if (acted.kind === 'refused' && acted.problem.id === 'build.no-setup') {
        proveSetups(ports);
        acted = ports.act(action, { person, inHand });
      }
      if (acted.kind === 'refused' || acted.kind === 'failed') throw new Error(problemText(acted.problem));
      if (acted.kind === 'ask') throw new Error(JSON.stringify(acted.question));
    }
  }
  ports.close();
}
