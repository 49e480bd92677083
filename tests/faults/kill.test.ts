/**
 * The whole process killed (SIGKILL) at seeded moments while a script feeds it a build. After each: every answer that it
 * acknowledged is in the journal, nothing is wrong but a torn end, and the next process goes on from there.
 *
 * 20 kills; PINCHROD_KILLS=200 for more. A kill leaves what was written to the system's cache, so this proves the order
 * of answer and write; that it is flushed too is proven over a model of power cuts in tests/store/crash.test.ts, where
 * lowdb's stock file adapter must fail.
 */
import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { freshWorkshop, MAIN } from '../bench/terminal.js';

const KILLS = Number(process.env.PINCHROD_KILLS ?? 20);
const SEED = Number(process.env.PINCHROD_SEED ?? 20_261_125);
const UNIT = 'P01-1';

interface Reply {
  readonly ok: boolean;
  readonly events?: readonly { readonly n: number; readonly hash: string }[];
}

it(`${KILLS} kills of a feed lose nothing that was acknowledged`, async (context) => {
  if (!existsSync(MAIN)) {
    console.warn('passed over: dist/main.js is not built (npm run build)');
    context.skip();
  }
  const { folder, remove } = freshWorkshop();
  const random = mulberry(SEED);
  const acknowledged = new Map<number, string>();
  let torn = 0;
  let more = 0;
  try {
    for (let kill = 0; kill < KILLS; kill++) {
      const child = spawn(process.execPath, [MAIN, '--workshop', folder, 'feed', UNIT, '--person', 'jb']);
      const ended = new Promise((done) => child.on('close', done));
      const answers = 1 + Math.floor(random() * 6);
      // Between the answer before and the one that is under way: some turns of the loop, not a time.
      const turns = Math.floor(random() * 4000);
      let seen = 0;
      for await (const line of createInterface({ input: talk(child, kill) })) {
        for (const { n, hash } of told(line)) acknowledged.set(n, hash);
        seen += 1;
        if (seen < answers) continue;
        send(child, kill, seen);
        await turn(turns);
        child.kill('SIGKILL');
        break;
      }
      await ended;
      const report = verifyTree(realDisk, folder);
      const worse = report.faults.filter(({ id }) => !/torn-end|no-line-end|stray-file/.test(id));
      expect(worse, `seed ${SEED}, kill ${kill}`).toEqual([]);
      torn += report.faults.filter(({ id }) => /torn-end|no-line-end/.test(id)).length;
      const written = journal(folder);
      for (const [n, hash] of acknowledged)
        expect(written.get(n), `seed ${SEED}, kill ${kill}, event ${n}`).toBe(hash);
      more += written.size - acknowledged.size > 1 ? 1 : 0;
    }
    const last = spawn(process.execPath, [MAIN, '--workshop', folder, 'feed', UNIT, '--person', 'jb']);
    last.stdin.end(`${JSON.stringify({ do: 'note', text: 'still here' })}\n`);
    const code = await new Promise((done) => last.on('close', done));
    expect(code).toBe(0);
    expect(verifyTree(realDisk, folder).faults).toEqual([]);
    console.log(
      `kill -9: ${KILLS} kills (seed ${SEED}), ${acknowledged.size} acknowledged events all there, ${torn} torn ends set aside, ${more} times more was written than was acknowledged`,
    );
    expect(acknowledged.size).toBeGreaterThan(KILLS);
  } finally {
    remove();
  }

  function talk(child: ChildProcessWithoutNullStreams, kill: number) {
    send(child, kill, 0);
    return child.stdout;
  }
}, 600_000);

/** One more action; every answer of the program asks for the next, so that one is always under way. */
function send(child: ChildProcessWithoutNullStreams, kill: number, at: number): void {
  child.stdin.on('error', () => {});
  for (let i = 0; i < (at === 0 ? 8 : 1); i++)
    child.stdin.write(
      `${JSON.stringify({ do: 'note', text: `kill ${kill}, ${at + i}: ${'x'.repeat(900)}` })}\n`,
    );
}

function told(line: string): readonly { readonly n: number; readonly hash: string }[] {
  const reply = JSON.parse(line) as Reply;
  expect(reply.ok, line).toBe(true);
  return reply.events ?? [];
}

/** Number to hash of every whole line. */
function journal(folder: string): Map<number, string> {
  const file = join(folder, 'logs', 'pier-house', `${UNIT}.jsonl`);
  const found = new Map<number, string>();
  if (!existsSync(file)) return found;
  for (const line of readFileSync(file, 'utf8').split('\n').slice(0, -1)) {
    const { n, hash } = JSON.parse(line) as { n: number; hash: string };
    found.set(n, hash);
  }
  return found;
}

async function turn(turns: number): Promise<void> {
  for (let i = 0; i < turns; i++) await new Promise((done) => setImmediate(done));
}

/** A small seeded random (mulberry32). */
function mulberry(seed: number): () => number {
  let a = seed | 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}
