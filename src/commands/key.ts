/** `key`: the key this bench signs finished work with, and which keys count in the workshop. */
import { join } from 'node:path';
import { ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { realDisk, storeProblem } from '../store/disk.js';
import { attempt, makeFolders, writeWhole } from '../store/files.js';
import {
  askingFile,
  askingKeys,
  type BenchKey,
  benchKey,
  newBenchKey,
  privateKeyFile,
  publicKeyFile,
  publicKeys,
} from '../store/key.js';
import { keepFirstKeyHere } from '../store/register/account.js';
import { countedKeys } from '../store/register/keys.js';
import {
  areKeysGone,
  beginKeys,
  hasKeys,
  introduceKey,
  isFirstKey,
  signingKey,
  withdrawKey,
} from '../store/register/signing.js';
import { openWorkshop } from '../store/workshop.js';
import type { Stamp } from '../unit/chain.js';
import { fingerprintOf } from '../unit/sealing.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { asLines, EXIT, fail, type Io, indented, readOptions, saying, usageOf } from './io.js';
import { KEY_SAYS } from './words/keys.js';

const raise = problemFactory(COMMAND_MESSAGES);

export async function run(args: string[], io: Io): Promise<number> {
  const options = { anew: { type: 'boolean' }, why: { type: 'string' }, bench: { type: 'string' } } as const;
  const read = readOptions(args, io, HELP.key, options, { least: 1, most: 2 });
  if (typeof read === 'number') return read;
  const [word, which] = read.positionals;
  const { values } = read;
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return said(io, workshop.problems);
  const bench = process.env.PINCHROD_BENCH ?? workshop.value.bench;
  const stamp = { by: 'nobody', at: new Date().toISOString(), bench };
  if (word === 'new' && which === undefined) return make(io, stamp, values.anew === true);
  if (word === 'show' && which === undefined) return show(io, bench);
  if (word === 'replace' && which === undefined) return replace(io, stamp);
  if (word === 'accept' && which !== undefined) return accept(io, stamp, which, values.bench);
  if (word === 'withdraw' && which !== undefined && values.why === undefined) {
    return fail(io, [raise('command.usage/withdraw', { usage: usageOf(HELP.key) })], EXIT.badInput);
  }
  if (word === 'withdraw' && which !== undefined && (values.why === 'lost' || values.why === 'exposed'))
    return withdraw(io, stamp, which, values.why);
  return fail(
    io,
    [raise('command.usage/key', { usage: HELP.key.split('\n').slice(0, 2).join('\n  ') })],
    EXIT.badInput,
  );
}

/** The first private key here that counts, by the name of its bench; this bench's own before others. */
function counting(root: string, own: string, not?: string): BenchKey | undefined {
  const benches = [own];
  attempt(() => {
    const folder = join(root, 'keys');
    for (const name of realDisk.list(folder))
      if (name.endsWith('.pem')) benches.push(name.slice(0, -'.pem'.length));
  });
  if (!hasKeys(realDisk, root)) return undefined;
  for (const bench of benches) {
    const key = signingKey(realDisk, root, bench);
    if (key.ok && key.value && key.value.id !== not) return key.value;
  }
  return undefined;
}

function make(io: Io, stamp: Stamp, anew: boolean): number {
  const { workshop: root } = io;
  const { bench } = stamp;
  const there = benchKey(realDisk, root, bench);
  if (!there.ok) return said(io, there.problems);
  const own = signingKey(realDisk, root, bench);
  if (!own.ok && own.problems[0]!.id === 'key.withdrawn') return said(io, own.problems);
  const signer = counting(root, bench);
  const isFirst = !hasKeys(realDisk, root) && !areKeysGone(realDisk, root);
  const begins = isFirst || (anew && !signer);
  // Where the register of keys is begun anew, a key that is there already does.
  const key =
    begins && !isFirst && there.value ? ok(there.value) : newBenchKey(realDisk, root, bench, !begins);
  if (!key.ok) return said(io, key.problems);
  if (begins) return begin(io, stamp, key.value, !isFirst);
  if (signer) {
    const introduced = introduce(root, key.value.publicPem, bench, { key: signer, stamp });
    if (!introduced.ok) return said(io, introduced.problems);
    io.out(saying(io, KEY_SAYS)('key-introduced', { key: signer.id }));
    told(io, bench, key.value);
    return EXIT.done;
  }
  const say = saying(io, KEY_SAYS);
  io.out(say('key-waits', { bench: sanitize(bench) }));
  io.out(say('key-waits-how'));
  io.out(indented(say('key-accept', { fingerprint: fingerprintOf(key.value.publicPem)! })));
  io.out(indented(say('key-private', { file: privateKeyFile(bench) })));
  io.out(indented(say('key-public', { file: askingFile(bench) })));
  io.out(say('key-begin-anew'));
  return EXIT.done;
}

/** It is the first of the workshop, or takes that place where no other can sign any more. */
function begin(io: Io, stamp: Stamp, key: BenchKey, anew: boolean): number {
  const begun = beginKeys(realDisk, io.workshop, key, stamp, { anew });
  if (!begun.ok) return said(io, begun.problems);
  putPublic(io.workshop, key.publicPem);
  told(io, stamp.bench, key);
  return EXIT.done;
}

function told(io: Io, bench: string, { id, publicPem }: BenchKey): void {
  const say = saying(io, KEY_SAYS);
  io.out(say('key-signs', { bench: sanitize(bench), key: id }));
  io.out(indented(say('key-fingerprint', { fingerprint: fingerprintOf(publicPem)! })));
  const label = say('key-fingerprint', { fingerprint: '' });
  io.out(indented(say('key-on-paper'), 2 + label.length));
  io.out(indented(say('key-private', { file: privateKeyFile(bench) })));
  io.out(indented(say('key-public', { file: publicKeyFile(id) })));
}

function putPublic(root: string, pem: string): void {
  const folder = makeFolders(realDisk, root, ['shared', 'keys']);
  writeWhole(realDisk, join(folder, `${fingerprintOf(pem)!.slice(0, 16)}.pem`), Buffer.from(pem));
}

/** The entry first: a key that lies among the public ones and is not introduced is a fault. */
function introduce(
  root: string,
  pem: string,
  of: string,
  by: { readonly key: BenchKey; readonly stamp: Stamp },
): Result<unknown> {
  const introduced = introduceKey(realDisk, root, pem, of, by);
  if (!introduced.ok) return introduced;
  putPublic(root, pem);
  attempt(() => realDisk.unlink(join(root, askingFile(of))));
  return introduced;
}

function accept(io: Io, stamp: Stamp, given: string, bench: string | undefined): number {
  const fingerprint = given.replace(/[\s:]/g, '').toLowerCase();
  if (!/^[0-9a-f]{64}$/.test(fingerprint))
    return said(io, [storeProblem('key.unknown', { given: sanitize(given) })]);
  const asking = [...askingKeys(realDisk, io.workshop)].find(([, pem]) => fingerprintOf(pem) === fingerprint);
  const lying = [...publicKeys(realDisk, io.workshop).keys.values()].find(
    (pem) => fingerprintOf(pem) === fingerprint,
  );
  // This account had the old first key: it takes the one that the register was begun anew with.
  if (isFirstKey(realDisk, io.workshop, fingerprint)) {
    keepFirstKeyHere(realDisk, io.workshop, fingerprint);
    io.out(saying(io, KEY_SAYS)('key-first-here', { fingerprint }));
    return EXIT.done;
  }
  const of = asking?.[0] ?? bench;
  const pem = asking?.[1] ?? lying;
  if (pem === undefined || of === undefined)
    return said(io, [storeProblem('key.unknown/key', { fingerprint })]);
  const signer = counting(io.workshop, stamp.bench);
  if (!signer) return said(io, [storeProblem('key.nobody-signs')]);
  const introduced = introduce(io.workshop, pem, of, { key: signer, stamp });
  if (!introduced.ok) return said(io, introduced.problems);
  const counts = { key: fingerprint.slice(0, 16), bench: sanitize(of), signer: signer.id };
  io.out(saying(io, KEY_SAYS)('key-counts', counts));
  return EXIT.done;
}

/** A new key for this bench, introduced and the old one withdrawn by the old one's signature. */
function replace(io: Io, stamp: Stamp): number {
  const { workshop: root } = io;
  const { bench } = stamp;
  const old = signingKey(realDisk, root, bench);
  const next = nextKey(root, bench);
  if (!next.ok) return said(io, next.problems);
  // A stop came after the entries: only the file is still to be put in its place.
  const isIn = countedKeys(realDisk, root).introduced.some(({ key }) => key === next.value.id);
  if (!isIn) {
    if (!old.ok) return said(io, old.problems);
    if (!old.value) return said(io, [storeProblem('key.gone', { bench })]);
    const by = { key: old.value, stamp };
    const begun = beginKeys(realDisk, root, old.value, stamp);
    if (!begun.ok) return said(io, begun.problems);
    const introduced = introduceKey(realDisk, root, next.value.publicPem, bench, by);
    if (!introduced.ok) return said(io, introduced.problems);
    const gone = withdrawKey(realDisk, root, { key: old.value.id, of: bench, why: 'replaced' }, by);
    if (!gone.ok) return said(io, gone.problems);
  }
  putPublic(root, next.value.publicPem);
  realDisk.rename(join(root, 'keys', `${bench}.next.pem`), join(root, privateKeyFile(bench)));
  realDisk.flushFolder(join(root, 'keys'));
  attempt(() => realDisk.unlink(join(root, askingFile(`${bench}.next`))));
  told(io, bench, next.value);
  if (old.ok && old.value) io.out(saying(io, KEY_SAYS)('key-replaced', { key: old.value.id }));
  return EXIT.done;
}

/** The key that takes over, made where it is not there yet. */
function nextKey(root: string, bench: string): Result<BenchKey> {
  const name = `${bench}.next`;
  const there = benchKey(realDisk, root, name);
  if (!there.ok) return there;
  return there.value ? ok(there.value) : newBenchKey(realDisk, root, name, true);
}

function withdraw(io: Io, stamp: Stamp, id: string, why: 'lost' | 'exposed'): number {
  const known = countedKeys(realDisk, io.workshop).introduced.find(
    (each) => each.key === id || each.fingerprint === id.toLowerCase(),
  );
  if (!known || known.withdrawn)
    return said(io, [storeProblem('key.unknown/key-counts', { id: sanitize(id) })]);
  const signer = counting(io.workshop, stamp.bench, known.key) ?? counting(io.workshop, stamp.bench);
  if (!signer) return said(io, [storeProblem('key.nobody-signs')]);
  const gone = withdrawKey(
    realDisk,
    io.workshop,
    { key: known.key, of: known.of ?? stamp.bench, why },
    { key: signer, stamp },
  );
  if (!gone.ok) return said(io, gone.problems);
  io.out(saying(io, KEY_SAYS)('key-withdrawn', { key: known.key }));
  return EXIT.done;
}

function show(io: Io, bench: string): number {
  const own = benchKey(realDisk, io.workshop, bench);
  const { introduced, keys } = countedKeys(realDisk, io.workshop);
  const { problems } = publicKeys(realDisk, io.workshop);
  const entry = own.ok && own.value ? introduced.find(({ key }) => key === own.value!.id) : undefined;
  const say = saying(io, KEY_SAYS);
  const apart = (...lines: readonly Spoken[]) => io.out(asLines([data(''), ...lines]));
  if (own.ok && own.value) {
    const { id, publicPem } = own.value;
    const has = { bench: sanitize(bench), key: id };
    io.out(entry?.withdrawn ? say('key-has-withdrawn', has) : say('key-has', has));
    io.out(say('key-fingerprint', { fingerprint: fingerprintOf(publicPem)! }));
    apart(data(publicPem.trimEnd()));
    const waits = askingKeys(realDisk, io.workshop).has(bench);
    if (waits) apart(say('key-not-yet'));
    else if (!keys.has(id)) apart(say('key-not-there', { file: publicKeyFile(id) }));
  } else if (own.ok) io.out(say('key-none', { bench: sanitize(bench) }));
  const others = introduced.filter(({ key }) => !own.ok || key !== own.value?.id);
  for (const { key, of, fingerprint, withdrawn } of others)
    apart(
      of === undefined
        ? say(withdrawn ? 'key-row-withdrawn' : 'key-row-counts', { key })
        : say(withdrawn ? 'key-row-withdrawn-of' : 'key-row-counts-of', { key, bench: sanitize(of) }),
      indented(data(fingerprint)),
    );
  const plain = introduced.length > 0 ? [] : [...keys.keys()].filter((id) => !own.ok || id !== own.value?.id);
  if (plain.length > 0) apart(say('key-others', { keys: plain }));
  for (const [of, pem] of askingKeys(realDisk, io.workshop))
    if (of !== bench && !of.endsWith('.next'))
      apart(
        say('key-asks', { bench: sanitize(of) }),
        indented(say('key-accept', { fingerprint: fingerprintOf(pem)! })),
      );
  return own.ok && problems.length === 0
    ? EXIT.done
    : said(io, [...(own.ok ? [] : own.problems), ...problems]);
}

function said(io: Io, problems: readonly Problem[]): number {
  return fail(
    io,
    problems,
    problems.some(({ id }) => id.startsWith('disk.')) ? EXIT.resource : EXIT.badInput,
  );
}
