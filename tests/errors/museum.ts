/**
 * The museum of errors: for each message a small case that gives it. A case is a folder tests/errors/<id>/ with case.yaml
 * and, beside it, files to be laid over a fresh workshop.
 */
import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  symlinkSync,
  truncateSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { Readable } from 'node:stream';
import { load } from 'js-yaml';
import { driveTo } from '../../scripts/drive.js';
import type { CommandModule, Io } from '../../src/commands/io.js';
import { realDisk } from '../../src/store/disk.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';

export const MUSEUM = import.meta.dirname;
const ROOT = join(MUSEUM, '../..');

/** What is done, in the order of the keys here. */
interface Doing {
  /** Built without hands up to this check, as at the bench: [unit, check]. */
  readonly drive?: readonly [unit: string, check: string];
  readonly remove?: readonly string[];
  /** File to content. */
  readonly put?: Readonly<Record<string, string>>;
  /** File to pieces of its text and what stands there instead; the piece must be there. */
  readonly change?: Readonly<Record<string, readonly (readonly [was: string, is: string])[]>>;
  readonly append?: Readonly<Record<string, string>>;
  /** File to its length in bytes; what is not there is NUL. */
  readonly length?: Readonly<Record<string, number>>;
  /** File to its length in bytes; comment lines fill it. */
  readonly big?: Readonly<Record<string, number>>;
  /** Name to what the symbolic link leads to. */
  readonly link?: Readonly<Record<string, string>>;
  /** File to what is done to its lines, counted from 1: dropped, written twice, swapped with the next, or the last line end cut off. */
  readonly lines?: Readonly<
    Record<string, readonly (readonly ['drop' | 'twice' | 'swap' | 'cut', number])[]>
  >;
  /** New name to the file it is a copy of. */
  readonly copy?: Readonly<Record<string, string>>;
  /** Variables of the environment while it runs. */
  readonly env?: Readonly<Record<string, string>>;
  /** Minutes that pass. */
  readonly wait?: number;
  readonly run?: readonly string[];
  /** Lines for standard input: objects as JSON, texts as they are. */
  readonly input?: readonly (object | string)[];
}

export interface Case extends Doing {
  /** Laid over the workshop too: the files under tests/errors/_small, a procedure of four steps and a job for it. */
  readonly small?: boolean;
  readonly before?: readonly Doing[];
  readonly run: readonly string[];
  readonly exit: number;
  /** Must be in what is printed. */
  readonly says: string;
}

export interface Outcome {
  readonly code: number;
  /** Standard output, then standard error, with the workshop's folder, times and hashes by their names. */
  readonly text: string;
  /** Files outside logs/ and register/ (and what the case itself asked to be written) that the run changed. */
  readonly changed: readonly string[];
}

export const ids = (): string[] =>
  readdirSync(MUSEUM, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && !entry.name.startsWith('_'))
    .map(({ name }) => name)
    .sort();

export const readCase = (id: string): Case =>
  load(readFileSync(join(MUSEUM, id, 'case.yaml'), 'utf8')) as Case;

/** `pass` moves the clock by so many minutes. */
export async function runCase(id: string, each: Case, pass: (minutes: number) => void): Promise<Outcome> {
  const folder = mkdtempSync(join(tmpdir(), 'museum-'));
  const root = join(folder, 'w');
  try {
    cpSync(pristine(), root, { recursive: true });
    if (each.small) cpSync(join(MUSEUM, '_small'), root, { recursive: true });
    for (const name of readdirSync(join(MUSEUM, id)))
      if (name !== 'case.yaml') cpSync(join(MUSEUM, id, name), join(root, name), { recursive: true });
    for (const doing of each.before ?? []) {
      prepare(root, doing, pass);
      if (doing.run) await command(root, doing.run, doing.input ?? []);
    }
    prepare(root, each, pass);
    const before = snapshot(root);
    const set = Object.keys(each.env ?? {});
    Object.assign(process.env, each.env);
    const { code, text } = await command(root, each.run, each.input ?? []).finally(() => {
      for (const name of set) delete process.env[name];
    });
    const after = snapshot(root);
    const changed = [...new Set([...before.keys(), ...after.keys()])].filter(
      (name) => before.get(name) !== after.get(name),
    );
    return { code, text: named(text, root), changed };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

let made: string | undefined;
/** A workshop as `init` makes it, made once and copied for each case. */
function pristine(): string {
  if (made !== undefined) return made;
  const folder = mkdtempSync(join(tmpdir(), 'museum-new-'));
  const workshop = makeWorkshop(realDisk, ROOT, join(folder, 'w'));
  if (!workshop.ok) throw new Error(JSON.stringify(workshop.problems));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  made = join(folder, 'w');
  return made;
}

function prepare(root: string, doing: Doing, pass: (minutes: number) => void): void {
  const [unit, until] = doing.drive ?? [];
  if (unit !== undefined) driveTo(root, unit, ({ id }) => id === until, Date.now());
  const at = (name: string): string => {
    const path = join(root, name);
    mkdirSync(dirname(path), { recursive: true });
    return path;
  };
  for (const name of doing.remove ?? []) {
    if (!existsSync(at(name))) throw new Error(`${name} is not there to be removed`);
    rmSync(at(name), { recursive: true });
  }
  for (const [name, text] of Object.entries(doing.put ?? {})) writeFileSync(at(name), text);
  for (const [name, pieces] of Object.entries(doing.change ?? {})) {
    let text = readFileSync(at(name), 'utf8');
    for (const [was, is] of pieces) {
      if (!text.includes(was)) throw new Error(`${name} does not hold: ${was}`);
      text = text.replace(was, () => is);
    }
    writeFileSync(at(name), text);
  }
  for (const [name, text] of Object.entries(doing.append ?? {})) writeFileSync(at(name), text, { flag: 'a' });
  for (const [name, bytes] of Object.entries(doing.big ?? {}))
    writeFileSync(at(name), `# ${'x'.repeat(97)}\n`.repeat(bytes / 100), { flag: 'a' });
  for (const [name, bytes] of Object.entries(doing.length ?? {})) truncateSync(at(name), bytes);
  for (const [name, target] of Object.entries(doing.link ?? {})) {
    if (existsSync(at(name))) unlinkSync(at(name));
    symlinkSync(target.replaceAll('WORKSHOP', root), at(name));
  }
  for (const [name, changes] of Object.entries(doing.lines ?? {})) {
    const lines = readFileSync(at(name), 'utf8').split('\n').slice(0, -1);
    let end = '\n';
    for (const [what, line] of changes) {
      if (line > lines.length) throw new Error(`${name} has no line ${line}`);
      if (what === 'drop') lines.splice(line - 1, 1);
      else if (what === 'twice') lines.splice(line, 0, lines[line - 1]!);
      else if (what === 'swap') lines.splice(line - 1, 2, lines[line]!, lines[line - 1]!);
      else end = '';
    }
    writeFileSync(at(name), lines.join('\n') + end);
  }
  for (const [name, from] of Object.entries(doing.copy ?? {})) cpSync(at(from), at(name));
  if (doing.wait) pass(doing.wait);
}

/** A verb in this process, with its own standard input. */
export async function command(
  root: string,
  [verb, ...args]: readonly string[],
  input: readonly (object | string)[] = [],
): Promise<{ code: number; text: string; out: string; err: string }> {
  const lines: string[] = [];
  const errors: string[] = [];
  const io: Io = {
    out: (text) => void lines.push(text),
    err: (text) => void errors.push(text),
    workshop: root,
    input: Readable.from(asked(root, input)),
  };
  const module = (await import(`../../src/commands/${verb}.ts`)) as CommandModule;
  const code = await module.run(
    args.map((arg) => arg.replaceAll('WORKSHOP', root)),
    io,
  );
  const [out, err] = [lines.join('\n'), errors.join('\n')];
  return { code, out, err, text: [out, err].filter((each) => each !== '').join('\n') };
}

/** "SNAG" is the number of the last snag that stands in a journal when the run begins. */
function* asked(root: string, input: readonly (object | string)[]): Generator<string> {
  for (const each of input) {
    const line = typeof each === 'string' ? each : JSON.stringify(each);
    yield `${line.includes('"SNAG"') ? line.replace('"SNAG"', String(lastSnag(root))) : line}\n`;
  }
}

function lastSnag(root: string): number {
  let last = 0;
  const folder = join(root, 'logs', 'small');
  for (const name of readdirSync(folder).filter((each) => each.endsWith('.jsonl')))
    for (const line of readFileSync(join(folder, name), 'utf8')
      .split('\n')
      .filter((each) => each !== '')) {
      const event = JSON.parse(line) as { kind: string; n: number };
      if (event.kind === 'snag-raised') last = event.n;
    }
  return last;
}

/** Every file of the workshop but what the journals and drills write, by content. */
export function snapshot(root: string): Map<string, string> {
  const found = new Map<string, string>();
  const walk = (folder: string): void => {
    for (const name of readdirSync(join(root, folder)).sort()) {
      const file = folder === '' ? name : `${folder}/${name}`;
      const stat = lstatSync(join(root, file));
      if (stat.isDirectory()) walk(file);
      else if (/^(logs|practice|register)\//.test(file) && file !== 'logs/README.md') continue;
      else if (stat.isSymbolicLink()) found.set(file, `-> ${readlinkSync(join(root, file))}`);
      else
        found.set(
          file,
          createHash('sha256')
            .update(readFileSync(join(root, file)))
            .digest('hex'),
        );
    }
  };
  walk('');
  return found;
}

/** What differs from run to run, by its name. */
const named = (text: string, root: string): string =>
  text
    .replaceAll(root, 'WORKSHOP')
    .replaceAll(root.slice(1), 'WORKSHOP')
    .replace(/\b[0-9a-f]{64}\b/g, 'HASH')
    .replace(/\b\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z/g, 'TIME')
    .replace(/\b[0-9a-f]{16}\b/g, 'KEY');

/** The line that carries the id, and the way out under it. */
export function extract(id: string, text: string): string | undefined {
  const lines = text.split('\n');
  const at = lines.findIndex((line) => line.includes(`[${id}]`));
  if (at >= 0)
    return lines
      .slice(at, at + 2)
      .filter((line, i) => i === 0 || line.startsWith('  '))
      .join('\n');
  const line = lines.find((each) => each.includes(`"id":"${id}"`));
  if (line !== undefined) {
    const value = JSON.parse(line) as { refused?: object; ask?: object };
    return JSON.stringify(value.refused ?? value.ask ?? value);
  }
  const shown = lines.findIndex((each) => each.includes(id));
  return shown >= 0 ? lines[shown] : undefined;
}
