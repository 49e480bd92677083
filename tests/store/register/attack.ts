/** What somebody may do who has all files of a workshop, and neither a bench's private key nor its account. */

import { signedWith } from '../../../src/store/register/entries.js';
import { canonicalText, chainHash, FIRST_PREV, sha256 } from '../../../src/unit/chain.js';
import { keyId, makeKeyPair, type Signer, signerOf } from '../../../src/unit/sealing.js';
import type { Files } from './registeredshop.js';

export type Chance = (most: number) => number;
type Line = Record<string, unknown> & { readonly n: number; hash: string };

export interface Attack {
  readonly name: string;
  /** Ids of which one must be found; undefined: nothing was done, or nobody can find it. */
  readonly finds?: readonly string[];
}

export const linesOf = (bytes: Uint8Array): Line[] =>
  Buffer.from(bytes)
    .toString('utf8')
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as Line);
const put = (files: Files, file: string, lines: readonly object[]): void =>
  void files.set(file, Buffer.from(lines.map((line) => `${canonicalText(line)}\n`).join('')));

const isUnit = (file: string): boolean => /^logs\/\w+\/[\w-]+\.jsonl$/.test(file);
const isBench = (file: string): boolean => /^register\/benches\//.test(file);
const KEYS = 'register/keys.jsonl';
const isChained = (file: string): boolean => file.endsWith('.jsonl');

const CHAIN = [
  'verify.changed-line',
  'verify.missing-line',
  'verify.re-ordered-line',
  'verify.repeated-line',
  'verify.broken-chain',
  'verify.unknown-event',
];
const SHORTER = ['verify.journal-cut', 'verify.journal-put-back'];
const REGISTER = ['verify.register-cut', 'verify.register-anew', 'verify.register-gone'];
const ANEW = ['verify.journal-anew', 'verify.journal-born-again'];

/** Writes the lines anew from this index on, each chained to the one before; seals are made to look over it. */
export function rechained(lines: readonly Line[], from: number, signer?: Signer): Line[] {
  let prev = from === 0 ? FIRST_PREV : lines[from - 1]!.hash;
  return lines.map((line, i) => {
    if (i < from) return line;
    const plain: Record<string, unknown> = { ...line, n: i + 1, prev };
    delete plain.hash;
    if (plain.kind === 'sealed') {
      plain.head = prev;
      if (signer) Object.assign(plain, { key: signer.id, signature: signer.sign(prev) });
    } else if (plain.signedBy !== undefined && signer) {
      delete plain.signature;
      Object.assign(plain, signedWith({ ...plain, signedBy: signer.id }, signer));
    }
    const hash = chainHash(plain);
    prev = hash;
    return { ...plain, hash } as Line;
  });
}

/** Changes something that a reader would see. */
function touched(line: Line): Line {
  const { by, at } = line as { by?: string; at?: string };
  return { ...line, by: by === 'mv' ? 'ot' : 'mv', at: (at ?? '').replace(/\.\d{3}Z$/, '.777Z') };
}

export class Attacker {
  readonly #fresh = makeKeyPair();
  readonly #signer: Signer = signerOf(this.#fresh.privatePem)!;

  constructor(
    private readonly genuine: Files,
    private readonly before: readonly Files[],
    private readonly chance: Chance,
  ) {}

  #one<T>(from: readonly T[]): T {
    return from[this.chance(from.length - 1)]!;
  }

  /** Lines of this file that some register knows at least. */
  known(file: string): number {
    let most = 0;
    for (const [name, bytes] of this.genuine)
      if (isBench(name))
        for (const line of linesOf(bytes))
          for (const head of (line.heads ?? []) as { file: string; events: number }[])
            if (head.file === file) most = Math.max(most, head.events);
    return most;
  }

  attack(files: Files): Attack {
    const chained = [...files.keys()].filter(isChained);
    const file = this.#one(chained);
    const lines = linesOf(files.get(file)!);
    const register = isBench(file) || file === KEYS;
    switch (
      this.#one([
        'edit',
        'cut',
        'empty',
        'swap',
        'put back',
        'put all back',
        'remove',
        're-chain',
        're-sign',
        're-sign all',
        'strip',
        'strip all',
        'drop key',
        'seal',
      ])
    ) {
      case 'edit': {
        const at = this.chance(lines.length - 1);
        put(files, file, lines.with(at, touched(lines[at]!)));
        return { name: `edit line ${at + 1} of ${file}`, finds: CHAIN };
      }
      case 'cut': {
        const left = 1 + this.chance(lines.length - 2);
        if (left >= lines.length) return { name: 'cut nothing' };
        put(files, file, lines.slice(0, left));
        return this.#shortened(`cut ${file} to ${left}`, file, left);
      }
      case 'empty':
        files.set(file, Buffer.alloc(0));
        return {
          name: `empty ${file}`,
          finds: register
            ? ['verify.register-gone', 'verify.key-not-introduced', 'verify.key-missing']
            : ['verify.journal-emptied'],
        };
      case 'remove': {
        const gone = this.#one(
          [...files.keys()].filter((name) =>
            /^(logs\/(?!index|README)|practice|register|shared\/keys)/.test(name),
          ),
        );
        files.delete(gone);
        return { name: `remove ${gone}`, finds: this.#removed(gone) };
      }
      case 'swap': {
        const other = this.#one(
          chained.filter((name) => isUnit(name) === isUnit(file) && isBench(name) === isBench(file)),
        );
        if (other === file || !(isUnit(file) || isBench(file))) return { name: 'swap nothing' };
        const [x, y] = [files.get(file)!, files.get(other)!];
        files.set(file, y).set(other, x);
        return {
          name: `swap ${file} and ${other}`,
          finds: isUnit(file) ? ['verify.wrong-unit'] : ['verify.not-opened'],
        };
      }
      case 'put back': {
        const old = this.#one(this.before).get(file);
        const now = files.get(file)!;
        if (old?.equals(now)) return { name: 'put nothing back' };
        if (old) files.set(file, old);
        else files.delete(file);
        return old
          ? this.#shortened(`put back ${file} with ${linesOf(old).length}`, file, linesOf(old).length)
          : { name: `put back ${file}: not there`, finds: this.#removed(file) };
      }
      case 'put all back': {
        const which = this.chance(this.before.length - 1);
        for (const name of [...files.keys()]) if (!this.before[which]!.has(name)) files.delete(name);
        for (const [name, bytes] of this.before[which]!) files.set(name, bytes);
        return {
          name: `put all back as in copy ${which}`,
          finds: [...REGISTER, 'verify.document-seal', 'verify.journal-gone'],
        };
      }
      case 're-chain': {
        const at = this.chance(lines.length - 1);
        put(files, file, rechained(lines.with(at, touched(lines[at]!)), at));
        return { name: `re-chain ${file} from ${at + 1}`, finds: this.#anew(file, at + 1, lines) };
      }
      case 're-sign': {
        const at = this.chance(lines.length - 1);
        if (this.chance(1) === 0) this.#dropKey(files);
        put(files, file, rechained(lines.with(at, touched(lines[at]!)), at, this.#signer));
        return {
          name: `re-sign ${file} from ${at + 1}`,
          finds: this.#anew(file, at + 1, lines, ['verify.key-not-introduced', 'verify.unknown-key']),
        };
      }
      case 're-sign all':
        return this.#allAnew(files, this.#signer);
      case 'strip':
        return this.#strip(files, file, lines);
      case 'strip all':
        return this.#allAnew(files, undefined);
      case 'drop key':
        this.#dropKey(files);
        return { name: 'drop a fresh key', finds: ['verify.key-not-introduced'] };
      default: {
        const name = 'logs/done/job.seal.json';
        const seal = JSON.parse(String(files.get(name)));
        delete seal.key;
        delete seal.signature;
        files.set(name, Buffer.from(`${JSON.stringify({ ...seal, bench: 'bench-z' }, null, 2)}\n`));
        return { name: 'strip the seal of a job', finds: ['verify.seal-gone'] };
      }
    }
  }

  #dropKey(files: Files): void {
    files.set(`shared/keys/${keyId(this.#fresh.publicPem)}.pem`, Buffer.from(this.#fresh.publicPem));
  }

  #shortened(name: string, file: string, left: number): Attack {
    if (file === KEYS) return { name, finds: ['verify.key-not-introduced', 'verify.key-missing'] };
    if (isBench(file)) return { name, finds: REGISTER };
    if (left >= this.known(file)) return { name };
    return { name, finds: left === 0 ? ['verify.journal-emptied'] : SHORTER };
  }

  #removed(gone: string): readonly string[] {
    if (gone.startsWith('logs/sources/')) return ['verify.source-missing'];
    if (gone.startsWith('logs/names/')) return ['verify.name-missing'];
    if (gone.includes('/evidence/')) return ['verify.evidence-missing'];
    if (gone.endsWith('job.seal.json')) return ['verify.seal-gone'];
    if (gone.startsWith('shared/keys/')) return ['verify.key-missing', 'verify.unknown-key'];
    if (gone.startsWith('register/')) return ['verify.register-gone'];
    return ['verify.journal-gone'];
  }

  /** From line `at` on, lines of this file are others now. */
  #anew(file: string, at: number, lines: readonly Line[], more: readonly string[] = []): readonly string[] {
    if (file === KEYS) return ['verify.key-entry', 'verify.key-missing', ...more];
    if (isBench(file)) return ['verify.forged-chain', 'verify.register-anew', ...more];
    const signed = lines.some(({ kind, n }) => kind === 'sealed' && n >= at);
    return [...(at <= this.known(file) ? ANEW : []), ...(signed ? ['verify.forged-chain', ...more] : [])];
  }

  #strip(files: Files, file: string, lines: readonly Line[]): Attack {
    if (isUnit(file)) {
      const at = lines.findIndex(({ kind }) => kind === 'sealed');
      if (at < 0) return { name: 'strip nothing' };
      put(files, file, rechained(lines.toSpliced(at, 1), at));
      return { name: `strip the signature of ${file}`, finds: [...SHORTER, ...ANEW] };
    }
    const at = this.chance(lines.length - 1);
    if (!lines[at]!.signedBy) return { name: 'strip nothing' };
    const bare = lines.map(
      ({ signedBy, signature, ...line }, i) => (i < at ? { ...line, signedBy, signature } : line) as Line,
    );
    put(files, file, rechained(bare, at));
    return {
      name: `strip ${file} from ${at + 1}`,
      finds: file === KEYS ? ['verify.key-entry'] : ['verify.register-unsigned', ...REGISTER],
    };
  }

  /** A whole other workshop: one answer is another person's, and all that names a hash is made to fit. */
  #allAnew(files: Files, signer: Signer | undefined): Attack {
    const units = [...files.keys()].filter(isUnit);
    const victim = this.#one(units);
    const heads = new Map<string, string>();
    for (const file of units) {
      const lines = linesOf(files.get(file)!);
      const from = file === victim ? this.chance(lines.length - 1) : 0;
      const bare = signer ? lines : lines.filter(({ kind }) => kind !== 'sealed');
      const changed =
        file === victim
          ? bare.with(Math.min(from, bare.length - 1), touched(bare[Math.min(from, bare.length - 1)]!))
          : bare;
      // Lines name the register, which is made after them: they name it no more.
      const plain = changed.map(({ register: _, ...line }) => line as Line);
      const anew = rechained(plain, 0, signer);
      put(files, file, anew);
      for (const [i, line] of anew.entries()) heads.set(`${file} ${i + 1}`, line.hash);
    }
    files.delete('logs/done/job.seal.json');
    for (const file of [...files.keys()].filter(isBench)) {
      const lines = linesOf(files.get(file)!).map((line) => {
        const { files: _f, signedBy, signature, ...rest } = line;
        const own = ((line.heads ?? []) as { file: string; events: number; hash: string }[]).flatMap(
          (head) => {
            const hash = heads.get(`${head.file} ${head.events}`);
            return isUnit(head.file) ? (hash ? [{ ...head, hash }] : []) : [head];
          },
        );
        return {
          ...rest,
          ...(line.heads ? { heads: own } : {}),
          ...(signer ? { signedBy, signature } : {}),
        } as Line;
      });
      put(files, file, rechained(lines, 0, signer));
    }
    files.delete(KEYS);
    for (const name of [...files.keys()]) if (name.startsWith('shared/keys/')) files.delete(name);
    if (signer) {
      this.#dropKey(files);
      const first = {
        kind: 'first-key',
        key: signer.id,
        fingerprint: sha256(Buffer.from(this.#fresh.publicPem.split('\n').slice(1, -2).join(''), 'base64')),
        of: 'bench-a',
        before: [],
        since: 0,
        seen: [],
        v: 2,
        n: 1,
        at: '2026-03-02T08:00:00.000Z',
        by: 'nobody',
        bench: 'bench-a',
        prev: FIRST_PREV,
        signedBy: signer.id,
        hash: '',
      } as unknown as Line;
      put(files, KEYS, rechained([first], 0, signer));
    }
    return {
      name: `write all anew, ${signer ? 'with a fresh key' : 'unsigned'}; ${victim}`,
      finds: [...REGISTER, 'verify.key-not-introduced', 'verify.key-missing', 'verify.document-seal'],
    };
  }
}
