/**
 * The terminal library's layout engine is WebAssembly and takes a moment to be made. It is made here, before the library
 * is loaded, since the bundle gives the library an engine that is ready (scripts/build.mjs).
 */
import { loadYoga } from 'yoga-layout/load';

export async function makeLayoutEngine(): Promise<void> {
  (globalThis as Record<symbol, unknown>)[Symbol.for('pinchrod.layout-engine')] ??= await loadYoga();
}
