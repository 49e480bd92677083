/** `demo`: the bench on a fresh copy of the demonstration workshop; with `--unattended`, builds one unit by itself. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sanitize } from '../base/text.js';
import { proveSetups } from '../session/setups.js';
import { realPorts } from '../session/workshopports.js';
import { realDisk } from '../store/disk.js';
import { makeWorkshop, shippedFolder } from '../store/makeworkshop.js';
import { keysFor } from '../tui/keyscript.js';
import { makeCore } from '../tui/loop.js';
import { openBench } from '../tui/open.js';
import { nextMove } from '../unit/autopilot.js';
import { demoPicture } from './demopicture.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions } from './io.js';
import { run as record } from './record.js';
import { run as verify } from './verify.js';

/** PINs of the demonstration's fictional people, as in shared/people.yaml. */
const PINS = { ot: '2705', mv: '4168' };
const FIRST_UNIT = 'P02-1';

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.demo, { unattended: { type: 'boolean' } }, { most: 1 });
  if (typeof read === 'number') return read;
  const shipped = shippedFolder();
  const folder = join(mkdtempSync(join(tmpdir(), 'pinchrod-demo-')), 'workshop');
  const made = shipped.ok ? makeWorkshop(realDisk, shipped.value, folder) : shipped;
  if (!made.ok) return fail(io, made.problems, EXIT.resource);
  const unit = read.positionals[0];
  if (!read.values.unattended) {
    // Machines start out proven, as they would be in mid-shift.
    const ports = realPorts({ workshop: folder });
    if (ports.ok) proveSetups(ports.value);
  }
  if (read.values.unattended) return unattended(folder, unit ?? FIRST_UNIT, { ...io, workshop: folder });
  if (process.stdin.isTTY && process.stdout.isTTY) {
    const code = await openBench({ workshop: folder, ...(unit === undefined ? {} : { unit }) });
    io.out(`The demonstration workshop is ${folder}; nothing outside it was changed.`);
    return code;
  }
  io.out(`The demonstration workshop is ${folder}.`);
  io.out(`This is no terminal. In one, run: pinchrod --workshop ${folder}`);
  return EXIT.done;
}

/** Builds a unit by keystrokes. Uses a simulated clock that advances between answers and past every cure. */
async function unattended(folder: string, unit: string, io: Io): Promise<number> {
  let clock = Math.floor(Date.now() / 60_000) * 60_000;
  const ports = realPorts({ workshop: folder, clock: () => clock, bench: 'unattended' });
  if (!ports.ok) return fail(io, ports.problems, EXIT.badInput);
  const evidence = picture(folder);
  for (const { text } of proveSetups(ports.value)) io.out(sanitize(text));
  const core = makeCore(ports.value);
  core.open(unit);
  if (!core.world().open) {
    io.err(
      `${sanitize(core.state().note?.text ?? `There is no unit "${unit}".`)} [demo.no-unit]\n  pinchrod board lists the units.`,
    );
    return EXIT.badInput;
  }
  const stuck = buildByKeys(core, evidence, io, (ms) => {
    clock += ms;
    // After an overnight cure a new shift begins, and the machines are proven again.
    if (ms > NIGHT_MS) proveSetups(ports.value);
  });
  const job = core.world().open!.job;
  core.feed('\u001b');
  ports.value.close();
  if (stuck !== undefined) {
    io.err(
      `The demonstration stopped: ${sanitize(stuck)} [demo.stuck]\n  The journal so far is whole: pinchrod --workshop ${folder} opens it.`,
    );
    return EXIT.doesNotHold;
  }
  const page = join(folder, `${unit}.html`);
  const wrote = await record([unit, '--format', 'html', '--out', page], io);
  io.out('');
  const held = await verify([job, unit], io);
  io.out(`\nRecord:   ${page}\nJournal:  ${join(folder, 'logs', job, `${unit}.jsonl`)}\nWorkshop: ${folder}`);
  return Math.max(wrote, held);
}

const NIGHT_MS = 3_600_000;
/** Minimum time between two answers, so that none is marked as a burst. */
const PACE_MS = 20_000;

function buildByKeys(
  core: ReturnType<typeof makeCore>,
  evidence: string,
  io: Io,
  wait: (ms: number) => void,
): string | undefined {
  let stage = '';
  let step = '';
  let idle = 0;
  for (;;) {
    core.tick();
    const world = core.world();
    const { state } = world.open!;
    const { person, inHand } = core.state();
    const context = {
      now: world.now,
      bench: world.bench,
      person,
      inHand,
      workshop: world.rules,
      instruments: world.instruments,
    };
    const move = nextMove(state, context, { pins: PINS, evidence });
    if (move.kind === 'finished') return undefined;
    if (move.kind === 'stuck') return move.why;
    if (move.kind === 'wait') {
      io.out(`    (the demonstration's clock goes on to ${move.until.slice(11, 16)} UTC: something cures)`);
      wait(Math.max(0, Date.parse(move.until) - Date.parse(world.now)) + 1000);
      continue;
    }
    const { action } = move;
    const id =
      action.do === 'answer'
        ? action.check.slice(0, action.check.indexOf('/'))
        : action.do === 'release'
          ? action.step
          : undefined;
    const at = id === undefined ? undefined : state.steps.get(id)?.step;
    if (at && at.stage !== stage) {
      stage = at.stage;
      io.out(`\n${sanitize(state.route.stages.find((each) => each.id === stage)?.title ?? stage)}`);
    }
    if (at && at.id !== step) {
      step = at.id;
      io.out(`  ${sanitize(at.title)}`);
      wait(Math.max(PACE_MS, (at.leastSeconds ?? 0) * 1000));
    }
    const check = action.do === 'answer' ? at?.checks.find((each) => each.id === action.check) : undefined;
    if ('evidence' in action && action.evidence) writeFileSync(evidence, demoPicture());
    const keys = keysFor(action, check?.kind);
    if (!keys) return `the bench has no keys for "${action.do}"`;
    const before = state.events.length;
    for (const chunk of keys) {
      wait(PACE_MS);
      core.feed(chunk);
      core.quiet();
    }
    const after = core.world().open!.state;
    const note = core.state().note;
    if (after.events.length > before && note) io.out(`    ${sanitize(note.text)}`);
    idle =
      after.events.length > before || core.state().person !== person || core.state().inHand !== inHand
        ? 0
        : idle + 1;
    if (idle > 2) return `nothing came of ${action.do}${note ? `: ${note.text} ${note.todo ?? ''}` : ''}`;
  }
}

/** Where a picture lies that a check or a hold asks for; written anew before each. */
function picture(folder: string): string {
  mkdirSync(join(folder, 'inbox'), { recursive: true });
  return join(folder, 'inbox', 'unattended.png');
}
