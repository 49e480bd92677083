/** The built program at a real terminal. Without one, or without a build, each test says why it was passed over. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeAll, describe, expect, it, type TestContext } from 'vitest';
import { loadUnit } from '../../src/commands/unitload.js';
import { realDisk } from '../../src/store/disk.js';
import { openWorkshop } from '../../src/store/workshop.js';
import { keysFor } from '../../src/tui/keyscript.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { nextCheck } from '../../src/unit/next.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { newPicture } from '../picture.js';
import {
  findPty,
  freshWorkshop,
  journal,
  logged,
  ROOT,
  Terminal,
  type TerminalOptions,
  withOpened,
} from './terminal.js';

const PINS = { ot: '2705', mv: '4168' };

let found: Awaited<ReturnType<typeof findPty>>;
beforeAll(async () => {
  found = await findPty();
});
const leave: (() => void)[] = [];
afterEach(() => {
  for (const each of leave.splice(0).reverse()) each();
});

function bench(
  context: TestContext,
  options: Partial<TerminalOptions> = {},
): { terminal: Terminal; folder: string } {
  if ('skip' in found) {
    console.warn(`passed over: ${found.skip}`);
    context.skip(found.skip);
    throw new Error('skipped');
  }
  const { folder, remove } = options.folder ? { folder: options.folder, remove: () => {} } : freshWorkshop();
  const terminal = new Terminal(found.pty, { folder, ...options });
  leave.push(remove, () => terminal.close());
  return { terminal, folder };
}

describe('the bench in a terminal', () => {
  it('opens on the board, goes to a unit and says who signs', async (context) => {
    const { terminal } = bench(context);
    await terminal.until('P02-1');
    expect(terminal.isAlternate()).toBe(true);
    await terminal.say('p02-1\r', 'nobody signs');
    await terminal.say('jb\r', 'signs: JB');
    await terminal.say('\x1bOP', 'Acts on what stands on the entry line');
    terminal.send('\x1b');
    await terminal.until((text) => !text.includes('Acts on what stands'));
    terminal.send('\x18');
    await terminal.until('Leave the bench?');
    terminal.send('\x1b[C');
    expect(await terminal.ended()).toEqual({ code: 0, signal: 0 });
    expect(terminal.isAlternate()).toBe(false);
    expect(terminal.raw.endsWith('\x1b[?1049l')).toBe(true);
  });

  it('keeps what the runtime thinks aloud off the screen', async (context) => {
    // Warned about each time another screen is drawn, from before the first until after the last.
    const aloud = "setInterval(()=>process.emitWarning('across the screen '+process.hrtime()),20).unref()";
    const { terminal } = bench(context, {
      env: { NODE_OPTIONS: `--import data:text/javascript,${encodeURIComponent(aloud)}` },
    });
    await terminal.until('P02-1');
    const from = terminal.raw.length;
    for (const [keys, shown] of [
      ['p02-1\r', 'nobody signs'],
      ['jb\r', 'signs: JB'],
      ['\x1bOP', 'Acts on what stands on the entry line'],
    ] as const)
      await terminal.say(keys, shown);
    expect(terminal.raw.slice(from)).not.toContain('across the screen');
  });

  it('takes 20 of 20 codes scanned at 1 ms a character, on a full screen', async (context) => {
    const { terminal } = bench(context, { columns: 120, rows: 50 });
    await terminal.say('P02-1\r', 'nobody signs');
    const people = ['JB', 'MV'];
    let last = '';
    for (let scan = 0; scan < 20; scan += 1) {
      // A code nobody could have, so that each is answered by name; the person last.
      last = people[scan % 2]!;
      for (const character of `ZZ-${String(scan).padStart(2, '0')}-8C41\r`) {
        terminal.send(character);
        await new Promise((done) => setTimeout(done, 1));
      }
      await terminal.until(`"ZZ-${String(scan).padStart(2, '0')}-8C41"`);
      await terminal.say(`${last}\r`, `signs: ${last}`);
    }
    expect(last).toBe('MV');
  });

  it('takes 20 codes in one burst without merging or losing one', async (context) => {
    const { terminal, folder } = bench(context, { columns: 120, rows: 50 });
    await terminal.say('P02-1\r', 'nobody signs');
    terminal.send(
      `${Array.from({ length: 19 }, (_, index) => (index % 2 === 0 ? 'JB\r' : 'MV\r')).join('')}T2\r`,
    );
    await terminal.until('In hand: T2');
    await terminal.until('signs: JB');
    expect(logged(folder, 'P02-1')).toBe(0);
  });

  it('is clean after resizes', async (context) => {
    const { terminal } = bench(context, { columns: 100, rows: 30 });
    await terminal.say('P02-1\r', 'nobody signs');
    /** The rule under the header as wide as the terminal, the keys in the last row but one, nothing in the last. */
    const drawnAt = async (columns: number, rows: number): Promise<string> => {
      terminal.resize(columns, rows);
      await terminal.until((text) => {
        const lines = text.split('\n');
        return (
          lines[2]!.startsWith('─ [○]') &&
          lines[2]!.length === columns &&
          lines[rows - 2]!.includes('yes') &&
          lines[rows - 1] === ''
        );
      });
      return terminal.text();
    };
    const first = await drawnAt(80, 24);
    await drawnAt(140, 45);
    await drawnAt(62, 19);
    terminal.resize(40, 10);
    await terminal.until('Make the window');
    expect(await drawnAt(80, 24)).toBe(first);
  });

  it.each(['SIGTERM', 'SIGHUP', 'SIGINT'] as const)('gives the terminal back on %s', async (signal) => {
    if ('skip' in found) return;
    const { folder, remove } = freshWorkshop();
    const terminal = new Terminal(found.pty, { folder });
    leave.push(remove, () => terminal.close());
    await terminal.say('P02-1\r', 'nobody signs');
    terminal.kill(signal);
    expect((await terminal.ended()).code).toBe({ SIGTERM: 143, SIGHUP: 129, SIGINT: 130 }[signal]);
    expect(terminal.isAlternate()).toBe(false);
    expect(terminal.raw).toContain('\x1b[?2004l');
    expect(terminal.raw).toContain('\x1b[?25h');
  });

  it('stands at the same check after kill -9, with everything it had acknowledged', async (context) => {
    const { terminal, folder } = bench(context);
    await terminal.say('P02-1\r', 'nobody signs');
    await terminal.say('jb\r', 'signs: JB');
    // What is asked next follows from the journal; a screen that is still drawing cannot mislead.
    let asked = '';
    await drive(terminal, folder, 'P02-1', (state) => {
      const at = nextCheck(state);
      const check = at && state.steps.get(at.step)?.step.checks.find(({ id }) => id === at.check);
      asked = check?.ask.slice(0, 30).replace(/\.$/, '') ?? '';
      return state.events.length >= 6;
    });
    expect(asked).not.toBe('');
    await terminal.until(asked);
    const before = journal(folder, 'P02-1');
    terminal.kill('SIGKILL');
    await terminal.ended();
    const again = bench(context, { folder });
    await again.terminal.until('under way');
    await again.terminal.say('P02-1\r', asked);
    expect(journal(folder, 'P02-1')).toEqual(before);
  });

  it('lets a second bench look at a unit, and says who has it', async (context) => {
    const { terminal, folder } = bench(context);
    await terminal.say('P02-1\r', 'nobody signs');
    const second = bench(context, { folder }).terminal;
    await second.say('P02-1\r', 'LOOKING ONLY');
    await second.until('You may look, not write');
    await second.say('jb\r', 'signs: JB');
    await second.say('\x7f\x1b[C', 'You may look, not write');
    expect(logged(folder, 'P02-1')).toBe(0);
    terminal.send('\x18\x1b[C');
    await terminal.ended();
    await second.say('P02-1\r', (text) => !text.includes('LOOKING ONLY'));
  });

  it('builds a whole unit by keys, to its finished record', { timeout: 240_000 }, async (context) => {
    const clockFile = join(freshFolder(), 'ahead');
    let ahead = 0;
    const forward = (ms: number): void => {
      ahead += ms;
      writeFileSync(clockFile, String(ahead));
    };
    forward(0);
    const { terminal, folder } = bench(context, {
      columns: 100,
      rows: 30,
      env: { NODE_OPTIONS: `--import=${join(ROOT, 'tests/bench/clock.mjs')}`, TEST_CLOCK_FILE: clockFile },
    });
    newPicture(join(folder, 'shot.txt'));
    await terminal.say('P01-1\r', 'nobody signs');
    await drive(terminal, folder, 'P01-1', (state) => state.finished, { ahead: () => ahead, forward });
    await terminal.until('P01-1 is finished.');
    const events = journal(folder, 'P01-1');
    expect(events.at(-1)?.kind).toBe('finished');
    expect(events.filter(({ kind }) => kind === 'released').every(({ by }) => by !== 'nobody')).toBe(true);
  });
});

function freshFolder(): string {
  const { folder, remove } = freshWorkshop();
  leave.push(remove);
  return folder;
}

interface Clock {
  readonly ahead: () => number;
  readonly forward: (ms: number) => void;
}

/** Answers by keys, each after the one before is in the journal on disk, until the unit's state is the one wanted. */
async function drive(
  terminal: Terminal,
  folder: string,
  unit: string,
  isDone: (state: UnitState) => boolean,
  clock?: Clock,
): Promise<void> {
  const workshop = openWorkshop(folder, realDisk);
  if (!workshop.ok) throw new Error(workshop.problems.map(({ text }) => text).join('\n'));
  const { rules, instruments } = workshop.value;
  let person: string | undefined;
  let inHand: string | undefined;
  for (let moves = 0; moves < 900; moves += 1) {
    const now = new Date(Date.now() + (clock?.ahead() ?? 0)).toISOString();
    // Read anew from disk, as somebody who only looks.
    const loaded = loadUnit(realDisk, workshop.value, { job: 'pier-house', unit }, now);
    if (!loaded.ok) throw new Error(loaded.problems.map(({ text }) => text).join('\n'));
    const { state } = loaded.value;
    if (isDone(state)) return;
    const begun = state.events.length > 0 ? state : withOpened(state);
    const context = { now, bench: '', person, inHand, workshop: rules, instruments };
    const move = nextMove(begun, context, { pins: PINS, evidence: 'shot.txt' });
    if (move.kind === 'finished' || move.kind === 'stuck')
      throw new Error(`${move.kind === 'stuck' ? move.why : 'finished'}\n${terminal.text()}`);
    if (move.kind === 'wait') {
      clock?.forward(Math.max(0, Date.parse(move.until) - Date.parse(now)) + 1000);
      // The jump counts as idle time: whoever was here signs in again.
      person = undefined;
      await terminal.say('\x7f', 'nobody signs');
      continue;
    }
    const { action } = move;
    if (action.do === 'person') {
      person = action.person;
      await terminal.say(`${person}\r`, `signs: ${rules.people.find(({ id }) => id === person)!.initials}`);
      continue;
    }
    if (action.do === 'instrument') {
      const tool = instruments.find(({ id }) => id === action.instrument)!;
      inHand = tool.id;
      await terminal.say(`${tool.id}\r`, `In hand: ${tool.id}`);
      continue;
    }
    const check =
      action.do === 'answer'
        ? [...state.steps.values()].flatMap(({ step }) => step.checks).find(({ id }) => id === action.check)
        : undefined;
    if ('evidence' in action && action.evidence) newPicture(join(folder, 'shot.txt'));
    const before = logged(folder, unit);
    for (const keys of keysFor(action, check?.kind) ?? []) terminal.send(keys);
    const wanted = action.do === 'release' ? 'released' : 'answered';
    await terminal.until(() =>
      journal(folder, unit)
        .slice(before)
        .some(({ kind }) => kind === wanted),
    );
    // The frame is shown as it was measured; Left goes back to the work.
    if (check?.kind === 'square') {
      await terminal.until('As measured');
      await terminal.say('\x1b[D', (text) => !text.includes('As measured'));
    }
  }
  throw new Error(`no end:\n${terminal.text()}`);
}
