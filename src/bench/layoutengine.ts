/**
 * The terminal library's layout engine is WebAssembly and takes a moment to be made. It is made here, before the library
 * is loaded, since the bundle gives the library an engine that is ready (scripts/build.mjs).
 */
import { loadYoga } from 'yoga-layout/load';

export async function makeLayoutEngine(): Promise<void> {
  const world = globalThis as { fetch?: unknown } & Record<symbol, unknown>;
  const { fetch } = world;
  // The engine stands in the code as text. Where there is a `fetch` it is read through that, which loads all of node's
  // network client first; without one it is decoded at once.
  world.fetch = undefined;
  try {
    world[Symbol.for('pinchrod.layout-engine')] ??= await loadYoga();
  } finally {
    world.fetch = fetch;
  }
}
