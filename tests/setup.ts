import { rmSync } from 'node:fs';

/** Before all tests: the program is built, so that none of them runs an old one or is skipped for want of it. */
export async function setup(): Promise<() => void> {
  await import('../scripts/build.mjs' as string);
  return () => rmSync(process.env.PINCHROD_STATE!, { recursive: true, force: true });
}
