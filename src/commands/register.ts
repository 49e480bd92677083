/** `register`: how far the registers have come, and accepting what a restore has left. */
import { problemFactory } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data } from '../base/words.js';
import { realDisk } from '../store/disk.js';
import { acceptable, acceptRestore } from '../store/register/accept.js';
import { countedKeys } from '../store/register/keys.js';
import { registered, registerHeads } from '../store/register/place.js';
import { verifyTree } from '../store/verify.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { RELEASES } from '../unit/people.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, indented, readOptions, saying, usageOf } from './io.js';
import { vouchedFor } from './vouched.js';
import { KEY_SAYS } from './words/keys.js';

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
  const say = saying(io, KEY_SAYS);
  if (json) io.out(asJson({ heads, firstKey: first ?? null, keys: introduced }, 2));
  else if (heads.length === 0) io.out(say('register-none'));
  else {
    for (const { bench, n, hash } of heads) {
      io.out(say('register-head', { bench: sanitize(bench), n }));
      io.out(indented(data(hash)));
    }
    for (const bench of registered(realDisk, io.workshop))
      if (!heads.some((head) => head.bench === bench))
        io.out(say('register-unread', { bench: sanitize(bench) }));
    if (first === undefined) io.out(say('register-no-key'));
    else {
      io.out(say('register-first-key'));
      io.out(indented(data(first)));
    }
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
    faults.value.map(({ said }) => said),
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
    saying(io, KEY_SAYS)('register-accepted', {
      name: sanitize(person.name),
      n: accepted.value.n,
      bench: sanitize(bench),
    }),
  );
  return EXIT.done;
}
