/** `demo`: the bench on a fresh copy of the demonstration workshop; with `--unattended`, builds a unit or a job by itself. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { problemFactory } from '../base/problem.js';
import { data } from '../base/words.js';
import { proveSetups } from '../session/setups.js';
import { realPorts } from '../session/workshopports.js';
import { realDisk } from '../store/disk.js';
import { makeWorkshop, shippedFolder } from '../store/makeworkshop.js';
import { makeCore } from '../tui/loop.js';
import { openBench } from '../tui/open.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { asLines, EXIT, fail, type Io, indented, readOptions, retold, saying } from './io.js';
import { run as record } from './record.js';
import { buildByKeys, noTally, picture, tallyText, unitsText } from './unattended.js';
import { buildBatch } from './unattendedbatch.js';
import { run as verify } from './verify.js';
import { MAKING_SAYS } from './words/making.js';

const raise = problemFactory(COMMAND_MESSAGES);

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
  const say = saying(io, MAKING_SAYS);
  if (!read.values.unattended) {
    // Machines start out proven, as they would be in mid-shift.
    const ports = realPorts({ workshop: folder });
    if (ports.ok) proveSetups(ports.value);
  }
  if (read.values.unattended) return unattended(folder, unit ?? FIRST_UNIT, { ...io, workshop: folder });
  if (process.stdin.isTTY && process.stdout.isTTY) {
    const code = await openBench({ workshop: folder, ...(unit === undefined ? {} : { unit }) });
    io.out(say('demo-left', { folder }));
    return code;
  }
  io.out(say('demo-is', { folder }));
  io.out(say('demo-no-terminal', { folder }));
  return EXIT.done;
}

/** A job is built within this time: begun so long ago, it is finished before anybody prints its record. */
const LONGEST_BUILD_MS = 7 * 24 * 3_600_000;

/** Builds a unit, or all units of a job as a batch, by keystrokes. Its clock goes on between answers and past every cure. */
/** A batch walks each step over all units there are: in this copy, those of its own job. */
function aloneIn(folder: string, job: string): void {
  const jobs = join(folder, 'shared/jobs');
  const files = realDisk.list(jobs).filter((file) => file.endsWith('.yaml'));
  if (!files.includes(`${job}.yaml`)) return;
  for (const file of files) if (file !== `${job}.yaml`) realDisk.unlink(join(jobs, file));
}

async function unattended(folder: string, what: string, io: Io): Promise<number> {
  aloneIn(folder, what);
  let clock = Math.floor(Date.now() / 60_000) * 60_000 - LONGEST_BUILD_MS;
  const ports = realPorts({ workshop: folder, clock: () => clock, bench: 'unattended' });
  if (!ports.ok) return fail(io, ports.problems, EXIT.badInput);
  const evidence = picture(folder);
  const setups = proveSetups(ports.value);
  for (const { text } of setups) io.out(retold(io, text));
  const core = makeCore(ports.value);
  const batch = core.world().board.filter(({ job }) => job === what);
  if (batch.length === 0) core.open(what);
  if (batch.length === 0 && !core.world().open) {
    const note = core.state().note;
    return fail(
      io,
      [note ? raise('demo.no-unit/told', { fault: note.text }) : raise('demo.no-unit', { unit: what })],
      EXIT.badInput,
    );
  }
  const tally = noTally();
  tally.shared = setups.length;
  let looked = clock;
  const wait = (ms: number): void => {
    clock += ms;
    // Machines whose first-off has run out are proven again.
    if (clock - looked < LOOK_MS) return;
    looked = clock;
    tally.shared += proveSetups(ports.value).length;
  };
  const building = { core, pins: PINS, evidence, io, wait };
  const stuck = batch.length === 0 ? buildByKeys(building, tally) : buildBatch(building, what, tally);
  const job = core.world().open?.job ?? what;
  const units = batch.length === 0 ? [what] : batch.map(({ unit }) => unit);
  core.feed('\u001b');
  ports.value.close();
  if (stuck !== undefined) {
    return fail(io, [raise('demo.stuck', { why: stuck, folder })], EXIT.doesNotHold);
  }
  let worst = 0;
  for (const unit of units) {
    worst = Math.max(
      worst,
      await record([unit, '--format', 'html', '--out', join(folder, `${unit}.html`)], io),
    );
    io.out(data(''));
    worst = Math.max(worst, await verify([job, unit], io));
  }
  const say = saying(io, MAKING_SAYS);
  const [first, ...others] = units.map((unit) => join(folder, `${unit}.html`));
  io.out(
    asLines([
      data(''),
      say('demo-records', { files: first! }),
      ...others.map((file) => indented(data(file), say('demo-records', { files: '' }).length)),
      say('demo-journals', { folder: join(folder, 'logs', job) }),
      say('demo-workshop', { folder }),
      ...(units.length > 1 ? [data(''), say('demo-each', { units: unitsText(tally) })] : []),
      data(''),
      tallyText(tally, io),
    ]),
  );
  return worst;
}

const LOOK_MS = 60_000;
