/**
 * `npm run benchmarks [SECTION ...]`: every timing as a ratio within one run, on Node 24 from the npm registry; all of them
 * together are saved as tests/benchmarks/RESULTS.md.
 * Sections are TypeScript files beside this one, each `export async function measure(): Promise<Row[]>`; they are bundled
 * here, so that they measure what ships.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir, totalmem } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { nodeBinary } from '../../scripts/nodebinary.mjs';

// Each costs tens of milliseconds of every start, and is no part of the program.
delete process.env.NODE_EXTRA_CA_CERTS;
delete process.env.NODE_OPTIONS;

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..');
const wanted = process.argv.slice(2);
if (!process.version.startsWith('v24.')) {
  const { status } = spawnSync(nodeBinary('24'), process.argv.slice(1), { stdio: 'inherit' });
  process.exit(status ?? 1);
}
const sections = readdirSync(here)
  .filter((file) => file.endsWith('.bench.ts'))
  .map((file) => basename(file, '.bench.ts'))
  .filter((name) => wanted.length === 0 || wanted.includes(name));

const out = mkdtempSync(join(tmpdir(), 'pinchrod-benchmarks-'));
process.env.PINCHROD_ROOT = root;
process.env.PINCHROD_NODE_20 = nodeBinary('20');
const saved = [];
let missed = 0;
try {
  for (const name of sections) {
    const outfile = join(root, 'node_modules', '.benchmarks', `${name}.mjs`);
    mkdirSync(dirname(outfile), { recursive: true });
    await build({
      entryPoints: [join(here, `${name}.bench.ts`)],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      packages: 'external',
      define: { PINCHROD_VERSION: '"bench"' },
      logLevel: 'warning',
    });
    const { title, measure } = await import(pathToFileURL(outfile).href);
    console.log(`\n${title ?? name}`);
    const rows = await measure({ root, scratch: out });
    for (const row of rows) {
      const verdict = row.bar === undefined ? '' : row.holds ? 'holds' : 'MISSED';
      if (verdict === 'MISSED') missed += 1;
      console.log(
        `  ${row.what.padEnd(66)} ${row.figure.padEnd(26)} ${(row.bar ?? '').padEnd(22)} ${verdict}`,
      );
    }
    saved.push([title ?? name, rows]);
  }
} finally {
  rmSync(out, { recursive: true, force: true });
}

if (wanted.length === 0) {
  const lines = [
    '# Timings',
    '',
    `Made by \`npm run benchmarks\` on ${new Date().toISOString().slice(0, 10)}: Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model.trim()}, ${Math.round(totalmem() / 2 ** 30)} GiB, ${process.platform}. Ratios are within one run; absolute times are this machine's.`,
  ];
  for (const [title, rows] of saved) {
    lines.push('', `## ${title}`, '', '| what | figure | bar | |', '|---|---|---|---|');
    for (const row of rows)
      lines.push(
        `| ${row.what} | ${row.figure} | ${row.bar ?? ''} | ${row.bar === undefined ? '' : row.holds ? 'holds' : 'MISSED'} |`,
      );
  }
  const file = join(root, 'tests', 'benchmarks', 'RESULTS.md');
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, `${lines.join('\n')}\n`);
  console.log(`\nSaved as tests/benchmarks/RESULTS.md (${readFileSync(file).length} bytes).`);
}
if (missed > 0) console.log(`${missed} bar(s) missed.`);
process.exitCode = missed > 0 ? 1 : 0;
