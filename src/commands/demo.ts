/** `demo`: the bench on a fresh copy of the demonstration workshop; with `--unattended`, builds one unit by itself. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sanitize } from '../base/text.js';
import { proveSetups } from '../session/setups.js';
import { realPorts } from '../session/workshopports.js';
import { realDisk } from '../store/disk.js';
import { makeWorkshop, shippedFolder } from '../store/makeworkshop.js';
import { makeCore } from '../tui/loop.js';
import { openBench } from '../tui/open.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions } from './io.js';
import { run as record } from './record.js';
import { buildByKeys, picture, type Tally, tallyText } from './unattended.js';
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
  const setups = proveSetups(ports.value);
  for (const { text } of setups) io.out(sanitize(text));
  const proven = setups.length;
  const core = makeCore(ports.value);
  core.open(unit);
  if (!core.world().open) {
    io.err(
      `${sanitize(core.state().note?.text ?? `There is no unit "${unit}".`)} [demo.no-unit]\n  pinchrod board lists the units.`,
    );
    return EXIT.badInput;
  }
  const tally: Tally = { confirmations: 0, holds: 0, keys: 0, readings: 0, shared: proven };
  const wait = (ms: number): void => {
    clock += ms;
    // After an overnight cure a new shift begins, and the machines are proven again.
    if (ms > NIGHT_MS) tally.shared += proveSetups(ports.value).length;
  };
  const stuck = buildByKeys({ core, pins: PINS, evidence, io, wait }, tally);
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
  io.out(`\n${tallyText(tally)}`);
  return Math.max(wrote, held);
}

const NIGHT_MS = 3_600_000;
