/** Asks at a terminal, on the bench's keys, what options have left open. */
import { sanitize } from '../base/text.js';
import type { Dialogue } from '../tui/practice.js';
import type { Io } from './io.js';

/** Whether there is somebody who can be asked. */
export const canAsk = (io: Io): boolean =>
  io.input === undefined && process.stdin.isTTY === true && process.stdout.isTTY === true;

/** Until the dialogue is over, or was left. Its questions are in the reader's language already. */
export async function askAll(
  talk: Dialogue & { readonly opening: readonly string[] },
  io: Io,
): Promise<void> {
  const [{ converse, realSession }, { ENGLISH_READER }] = await Promise.all([
    import('./train/shop.js'),
    import('./reader.js'),
  ]);
  const session = realSession({ plain: false, zone: undefined });
  const reader = { ...(io.reader ?? ENGLISH_READER), retell: sanitize };
  await converse(talk, talk.opening, session, { ...io, reader }, false);
}
