/** A workshop whose one small job is built to the end through the bench's real ports. All data is invented. */

import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { problemText } from '../../src/base/problem.js';
import { proveSetups } from '../../src/session/setups.js';
import { realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { newBenchKey } from '../../src/store/key.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { newPicture } from '../picture.js';

export const BENCH = 'bench-t';
export const JOB = 'quay-end';
/** PINs of the demonstration's invented people, as shared/people.yaml says. */
const PINS = { ot: '2705', mv: '4168' };

const JOB_FILE = `format: pinchrod-job 1
name: ${JOB}
title: Quay End
customer: N. Crowe (invented)
profile_set: w52
procedure: casement
revision: A
glass: 4-16-4
outside_colour: slate grey
inside_colour: white
units:
  - mark: Q1
    width: 900
    height: 1200
    room: hall
    layout: {light: fixed}
`;

/** Gives the workshop's folder. Q1-1 is finished there, signed where `key` is wanted. */
export function builtWorkshop(key: boolean): string {
  const root = join(mkdtempSync(join(tmpdir(), 'pinchrod-')), 'shop');
  const made = makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), root);
  if (!made.ok) throw new Error(made.problems.map(problemText).join('\n'));
  writeFileSync(join(root, `shared/jobs/${JOB}.yaml`), JOB_FILE);
  newPicture(join(root, 'photo.jpg'));
  if (key && !newBenchKey(realDisk, root, BENCH).ok) throw new Error('no key');
  build(root);
  return root;
}

function build(root: string): void {
  let clock = Date.UTC(2026, 2, 2, 8);
  const ports = realPorts({ workshop: root, clock: () => clock, bench: BENCH });
  if (!ports.ok) throw new Error(ports.problems.map(problemText).join('\n'));
  proveSetups(ports.value);
  const opened = ports.value.open(`${JOB}/Q1-1`);
  if (opened.kind !== 'open') throw new Error('cannot open');
  let person: string | undefined;
  let pictures = 0;
  let inHand: string | undefined;
  for (let i = 0; i < 3000; i++) {
    const world = ports.value.world();
    const context = {
      now: world.now,
      bench: BENCH,
      person,
      inHand,
      workshop: world.rules,
      instruments: world.instruments,
    };
    const move = nextMove(world.open!.state, context, { pins: PINS, evidence: 'photo.jpg' });
    if (move.kind === 'finished') {
      ports.value.close();
      return;
    }
    if (move.kind === 'stuck') throw new Error(move.why);
    if (move.kind === 'wait') clock = Date.parse(move.until) + 1000;
    else {
      clock += 60_000;
      const { action } = move;
      if (action.do === 'person') person = action.person;
      else if (action.do === 'instrument') {
        const instrument = world.instruments.find(({ id }) => id === action.instrument)!;
        inHand = instrument.id;
      } else {
        // One answer has a picture, so that there is evidence.
        const withPicture =
          action.do === 'answer' && pictures++ === 0 ? { ...action, evidence: ['photo.jpg'] } : action;
        if ('evidence' in action && action.evidence) newPicture(join(root, 'photo.jpg'));
        const acted = ports.value.act(withPicture, { person, inHand });
        if (acted.kind === 'refused' || acted.kind === 'failed') throw new Error(problemText(acted.problem));
        if (acted.kind === 'ask') throw new Error(JSON.stringify(acted.question));
      }
    }
  }
  throw new Error('never finished');
}

/** A command run with its words kept. */
export async function ran(
  command: { run: (args: string[], io: never) => Promise<number> },
  workshop: string,
  ...args: string[]
): Promise<{ code: number; out: string; err: string }> {
  const out: string[] = [];
  const err: string[] = [];
  const io = {
    workshop,
    out: (text: string) => void out.push(text),
    err: (text: string) => void err.push(text),
  };
  const code = await command.run(args, io as never);
  return { code, out: out.join('\n'), err: err.join('\n') };
}
