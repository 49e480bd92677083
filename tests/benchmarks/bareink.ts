/** Bundles a small program of the terminal library alone: what the bench is measured beside. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

/** `source` is JSX; the bundle is a single ES module at `outfile`, minified, in production mode. */
export async function bundleBareInk(root: string, source: string, outfile: string): Promise<string> {
  const folder = join(root, 'node_modules', '.benchmarks');
  mkdirSync(folder, { recursive: true });
  const entry = join(folder, 'bare.jsx');
  writeFileSync(entry, source);
  await build({
    entryPoints: [entry],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    minify: true,
    jsx: 'transform',
    define: { 'process.env.NODE_ENV': '"production"', 'process.env.DEV': '"false"' },
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
    plugins: [
      {
        name: 'stub',
        setup(b) {
          b.onResolve({ filter: /^react-devtools-core$/ }, () => ({ path: 'devtools', namespace: 'stub' }));
          b.onLoad({ filter: /.*/, namespace: 'stub' }, () => ({ contents: 'export default {};' }));
        },
      },
    ],
  });
  return outfile;
}
