/** A workshop in a folder of its own, copied from the demonstration, and a session with typed lines and a clock. */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Session, TrainingShop } from '../../src/commands/train/shop.js';
import { run } from '../../src/commands/train.js';
import { givePins } from '../pins.js';

export const REPOSITORY = resolve(import.meta.dirname, '../..');

export function tempWorkshop(): string {
  const root = mkdtempSync(join(tmpdir(), 'pinchrod-train-'));
  for (const folder of ['shared', 'procedures'])
    cpSync(join(REPOSITORY, folder), join(root, folder), { recursive: true });
  mkdirSync(join(root, 'logs'));
  givePins(root);
  return root;
}
export const removeWorkshop = (root: string): void => rmSync(root, { recursive: true, force: true });

/** The demonstration's own files, read once. */
export function demonstration(): TrainingShop {
  const shop = opened ?? TrainingShop.open(REPOSITORY);
  opened = shop;
  if (!shop.ok) throw new Error(JSON.stringify(shop.problems));
  return shop.value;
}
let opened: ReturnType<typeof TrainingShop.open> | undefined;

export function planFor(unit: string) {
  const plan = demonstration().plan(unit);
  if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
  return plan.value;
}

export interface Played {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command with typed lines; the clock goes on by `stepMs` each time it is read. */
export async function train(
  root: string,
  args: string[],
  lines: string[] = [],
  start = '2026-03-02T07:00:00.000Z',
  stepMs = 1000,
): Promise<Played> {
  const out: string[] = [];
  const err: string[] = [];
  let at = Date.parse(start);
  const session: Session = {
    lines: (async function* () {
      yield* lines;
    })(),
    person: false,
    secret: async () => lines[0],
    now: () => {
      const now = new Date(at).toISOString();
      at += stepMs;
      return now;
    },
    seed: () => 1,
  };
  const io = {
    out: (text: string) => void out.push(text),
    err: (text: string) => void err.push(text),
    workshop: root,
  };
  const code = await run(args, io, session);
  return { code, out: out.join('\n'), err: err.join('\n') };
}

/** Every file under a folder with its bytes, for "nothing was touched". */
export function tree(folder: string): Record<string, string> {
  const out: Record<string, string> = {};
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    const path = join(entry.parentPath, entry.name);
    out[path] = entry.isFile() ? readFileSync(path).toString('base64') : 'folder';
  }
  return out;
}
