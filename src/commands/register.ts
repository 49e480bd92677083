import { problemFactory } from '../base/problem.js';
/** `register`: how far the registers have come, and accepting what a restore has left. */
import { sanitize } from '../base/text.js';
import { realDisk } from '../store/disk.js';
import { acceptable, acceptRestore } from '../store/register/accept.js';
import { countedKeys } from '../store/register/keys.js';
import { registered, registerHeads } from '../store/register/place.js';
import { verifyTree } from '../store/verify.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { RELEASES } from '../unit/people.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions, usageOf } from './io.js';
import { vouchedFor } from './vouched.js';

const raise = problemFactory(COMMAND_MESSAGES);

export async function run(args: string[], io: Io): Promise<number> {
  const options = { json: { type: 'boolean' }, by: { type: 'string' }, reason: { type: 'string' } } as const;
  const read = readOptions(args, io, HELP.register, options, { most: 1 });
  if (typeof read === 'number') return read;
  const { values, positionals } = read;
  const [word] = positionals;
  const { by, reason } = values;
  if (word === undefined) return show(io, values.json === true);
  if (word !== 'accept' || by === undefined || reason === undefined || reason.trim() === '') {
    return fail(io, [raise('command.usage/register', { usage: usageOf(HELP.register) })], EXIT.badInput);
  }
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return fail(io, workshop.problems);
  return accept(io, workshop.value, by, reason.trim());
}

function show(io: Io, json: boolean): number {
  const heads = registerHeads(realDisk, io.workshop);
  const { first, introduced } = countedKeys(realDisk, io.workshop);
  if (json) io.out(JSON.stringify({ heads, firstKey: first ?? null, keys: introduced }, null, 2));
  else if (heads.length === 0)
    io.out('There is no register yet: the first bench that opens a unit begins one.');
  else {
    for (const { bench, n, hash } of heads) io.out(`${sanitize(bench)}: entry ${n}\n  ${hash}`);
    for (const bench of registered(realDisk, io.workshop))
      if (!heads.some((head) => head.bench === bench))
        io.out(`${sanitize(bench)}: cannot be read; pinchrod verify says why.`);
    io.out(
      first === undefined
        ? 'No key counts: nothing is signed.'
        : `Fingerprint of the first key, by which all others count:\n  ${first}`,
    );
  }
  return EXIT.done;
}

async function accept(io: Io, workshop: Workshop, by: string, reason: string): Promise<number> {
  const bench = process.env.PINCHROD_BENCH ?? workshop.bench;
  const report = verifyTree(realDisk, io.workshop);
  const faults = acceptable(report, bench);
  if (!faults.ok) return fail(io, faults.problems, EXIT.doesNotHold);
  const vouched = await vouchedFor(
    io,
    workshop,
    by,
    RELEASES,
    faults.value.map(({ text }) => text),
  );
  if (!vouched.ok) {
    const isNobody = vouched.problems[0]?.id === 'person.unknown';
    return fail(io, vouched.problems, isNobody ? EXIT.badInput : EXIT.doesNotHold);
  }
  const person = vouched.value;
  const stamp = { by: person.id, at: new Date().toISOString(), bench };
  const how = { reason, pin: person.pin !== undefined };
  const accepted = acceptRestore(realDisk, io.workshop, report, faults.value, how, stamp);
  if (!accepted.ok) return fail(io, accepted.problems);
  io.out(
    `Accepted by ${sanitize(person.name)}: entry ${accepted.value.n} of ${sanitize(bench)}. It stays in the register, and verify names it.`,
  );
  return EXIT.done;
}
