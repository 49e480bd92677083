/**
 * The bench over a disk that fails from its n-th call on, n = 1, 2, 3 …, until somebody mends it, all through a real build: it
 * says in one sentence what happened and what to do, keeps the answer that is not saved on the screen, writes nothing, and
 * takes it with one key when the cause is gone.
 */

import { join } from 'node:path';
import { expect, it } from 'vitest';
import { realPorts } from '../../src/session/workshopports.js';
import { type Disk, realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { keysFor } from '../../src/tui/keyscript.js';
import { type Core, makeCore } from '../../src/tui/loop.js';
import type { Action } from '../../src/unit/actions.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { nextCheck } from '../../src/unit/next.js';
import { newPicture } from '../picture.js';
import { freshWorkshop } from '../tui/terminal.js';
import { written } from './feed.js';

const PINS = { ot: '2705', mv: '4168' };
const UNIT = 'P01-1';
const RIGHT = '\x1b[C';
/** Calls that a full or a read-only disk still does. */
const READS = new Set(['read', 'list', 'stat', 'real', 'size', 'close', 'unlink']);
const SAYS: Record<string, string> = {
  EIO: 'disk.fault',
  ENOSPC: 'disk.full',
  EROFS: 'disk.read-only',
  EACCES: 'disk.no-right',
  EMFILE: 'disk.too-many-open',
};

interface Sick {
  readonly disk: Disk;
  /** Fails from the n-th call on, until healed. */
  fall(code: string, nth: number): void;
  heal(): void;
  readonly struck: () => boolean;
}

function sickDisk(): Sick {
  let code: string | undefined;
  let left = 0;
  let struck = false;
  const disk = new Proxy(realDisk, {
    get(target, name: keyof Disk) {
      return (...args: unknown[]) => {
        const only =
          code === 'ENOSPC' || code === 'EROFS'
            ? !READS.has(name) && !isAppend(name, args)
            : name !== 'close';
        if (code !== undefined && only && --left <= 0) {
          struck = true;
          throw Object.assign(new Error(`${code}: injected in ${name}`), { code });
        }
        return (target[name] as (...given: unknown[]) => unknown)(...args);
      };
    },
  });
  return {
    disk,
    fall(which, nth) {
      code = which;
      left = nth;
      struck = false;
    },
    heal() {
      code = undefined;
    },
    struck: () => struck,
  };
}

/** A full disk opens what is there. */
const isAppend = (name: string, args: readonly unknown[]): boolean =>
  name === 'open' && (args[1] === 'append' || args[1] === 'mend');

it.each(Object.keys(SAYS))('%s from the n-th call on, all through a build', (code) => {
  const { folder, remove } = freshWorkshop();
  let clock = Date.parse('2026-11-24T08:00:00Z');
  const sick = sickDisk();
  const ports = realPorts({ workshop: folder, disk: sick.disk, clock: () => clock, bench: 'bench-1' });
  if (!ports.ok) throw new Error(ports.problems[0]!.text);
  newPicture(join(folder, 'shot.txt'));
  try {
    const core = makeCore(ports.value);
    core.feed(`${UNIT}\r`);
    let nth = 1;
    let failed = 0;
    for (let moves = 0; moves < 60; moves += 1) {
      clock += 5000;
      const action = next(core, (until) => {
        clock = Math.max(clock, until) + 1000;
      });
      if (action === undefined) break;
      const { state } = core.world().open!;
      const kind = state.steps
        .get(nextCheck(state)?.step ?? '')
        ?.step.checks.find(({ id }) => id === (action as { check?: string }).check)?.kind;
      if ('evidence' in action && action.evidence) newPicture(join(folder, 'shot.txt'));
      const keys = keysFor(action, kind)!;
      if (action.do === 'person' || action.do === 'instrument') {
        for (const each of keys) core.feed(each);
        continue;
      }
      // All but the last of the keys only gather what the action needs.
      for (const each of keys.slice(0, -1)) core.feed(each);
      const before = written(folder, UNIT).length;
      sick.fall(code, nth);
      core.feed(keys.at(-1)!);
      sick.heal();
      if (sick.struck()) {
        failed += 1;
        nth += 1;
        const { screen } = core.state();
        const about = `${code} at call ${nth - 1}, ${JSON.stringify(action)}`;
        expect(
          verifyTree(realDisk, folder).faults.filter(({ id }) => id !== 'verify.torn-end'),
          about,
        ).toEqual([]);
        if (screen.name === 'step' && written(folder, UNIT).length > before) {
          // The call that failed was one that nothing hangs on.
          expect(core.state().note?.tone, about).not.toBe('bad');
          continue;
        }
        if (screen.name === 'question') {
          expect(screen.retry, about).toBe(true);
          expect(screen.question.id, about).toMatch(/^disk\./);
          expect(String(screen.question.text), about).toMatch(/^Not saved: \S/);
          const { action: asked } = screen;
          const sent = asked.do === 'read' ? Object.values(sense(action) as object) : [sense(action)];
          expect(sent.some((each) => JSON.stringify(asked).includes(JSON.stringify(each)))).toBe(true);
          expect(screen.question.details.join(' ')).toContain('tries again');
          core.feed(`\x7f${RIGHT}`);
        } else {
          // Refused at once (a file of evidence could not be kept): the same keys again.
          expect(core.state().note?.text, about).toMatch(new RegExp(code));
          for (const each of keys) core.feed(each);
        }
        expect(written(folder, UNIT).length, `${about}: taken when the disk was mended`).toBeGreaterThan(
          before,
        );
      } else nth = 1;
    }
    expect(failed).toBeGreaterThan(20);
    expect(verifyTree(realDisk, folder).faults).toEqual([]);
    console.log(`${code}: ${failed} answers kept while the disk failed, every one taken afterwards`);
  } finally {
    ports.value.close();
    remove();
  }
});

const sense = (action: Action): unknown =>
  'value' in action ? action.value : 'step' in action ? action.step : action.do;

function next(core: Core, wait: (until: number) => void): Action | undefined {
  for (;;) {
    const world = core.world();
    const { person, inHand } = core.state();
    const context = {
      now: world.now,
      bench: world.bench,
      person,
      inHand,
      workshop: world.rules,
      instruments: world.instruments,
    };
    const move = nextMove(world.open!.state, context, { pins: PINS, evidence: 'shot.txt' });
    if (move.kind === 'act') return move.action;
    if (move.kind !== 'wait') return undefined;
    wait(Date.parse(move.until));
    core.tick();
  }
}
