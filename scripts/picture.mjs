/**
 * `npm run picture`: the README's picture. The built program runs in a pseudo-terminal on a copy of the demonstration
 * workshop; a terminal emulator reads its screen, which is drawn as SVG.
 */
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { spawn } from '@lydell/node-pty';
import xterm from '@xterm/headless';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const COLUMNS = 100;
const ROWS = 30;
/** Keys sent in order; the picture is taken after the last one: a frame is being squared. */
const KEYS = ['jb\r', 'T2\r', 'P02-1\r', '1000\r', '1000.5\r', '700\r', '700\r', '1220.5\r', '1221'];
const target = process.argv[2] ?? join(root, 'shared', 'pictures', 'bench.svg');

const folder = mkdtempSync(join(tmpdir(), 'pinchrod-picture-'));
for (const part of ['procedures', 'shared', 'logs'])
  cpSync(join(root, part), join(folder, part), { recursive: true, filter: (path) => !/\.jsonl$/.test(path) });

const drive = join(root, 'node_modules', '.bench', 'drive.mjs');
await build({
  entryPoints: [join(root, 'scripts', 'drive.ts')],
  outfile: drive,
  bundle: true,
  format: 'esm',
  platform: 'node',
  define: { PINCHROD_VERSION: '"picture"' },
  banner: {
    js: "import { createRequire as __cr } from 'node:module'; const require = __cr(import.meta.url);",
  },
});
const { driveTo } = await import(pathToFileURL(drive).href);
driveTo(folder, 'P02-1', ({ kind }) => kind === 'square', Date.now());

const terminal = new xterm.Terminal({ cols: COLUMNS, rows: ROWS, allowProposedApi: true });
const env = { ...process.env, TERM: 'xterm-256color', COLORTERM: 'truecolor' };
delete env.CI;
const child = spawn(process.execPath, [join(root, 'dist', 'main.js')], {
  cwd: folder,
  cols: COLUMNS,
  rows: ROWS,
  env,
});
let quiet = Date.now();
child.onData((data) => {
  quiet = Date.now();
  terminal.write(data);
});
const settle = async () => {
  const from = Date.now();
  do await new Promise((done) => setTimeout(done, 30));
  while (Date.now() - quiet < 150 || Date.now() - from < 200);
};

await settle();
for (const key of KEYS) {
  child.write(key);
  await settle();
}
mkdirSync(dirname(target), { recursive: true });
writeFileSync(target, draw());
child.kill('SIGKILL');
rmSync(folder, { recursive: true, force: true });
console.log(`wrote ${target}`);

function draw() {
  const W = 8.4;
  const H = 18;
  const buffer = terminal.buffer.active;
  const boxes = [];
  const texts = [];
  for (let y = 0; y < ROWS; y += 1) {
    const line = buffer.getLine(y);
    let run;
    const flush = () => {
      if (!run) return;
      const x = 12 + run.from * W;
      const width = run.cells * W;
      if (run.back)
        boxes.push(
          `<rect x="${x.toFixed(1)}" y="${12 + y * H}" width="${width.toFixed(1)}" height="${H}" fill="${run.back}"/>`,
        );
      if (run.text.trim() !== '')
        texts.push(
          `<text x="${x.toFixed(1)}" y="${12 + y * H + 13.5}" textLength="${width.toFixed(1)}" lengthAdjust="spacingAndGlyphs" fill="${run.fore}"${run.bold ? ' font-weight="bold"' : ''}>${safe(run.text)}</text>`,
        );
      run = undefined;
    };
    for (let x = 0; x < COLUMNS; x += 1) {
      const cell = line.getCell(x);
      if (cell.getWidth() === 0) continue;
      const inverse = cell.isInverse() !== 0;
      const dim = cell.isDim() !== 0;
      let fore = colour(cell.getFgColor(), cell.isFgRGB(), cell.isFgPalette()) ?? '#e6e1d6';
      let back = colour(cell.getBgColor(), cell.isBgRGB(), cell.isBgPalette());
      if (inverse) [fore, back] = [back ?? '#1d2024', fore];
      if (dim) fore = '#98948a';
      const bold = cell.isBold() !== 0;
      if (!run || run.fore !== fore || run.back !== back || run.bold !== bold) {
        flush();
        run = { from: x, cells: 0, text: '', fore, back, bold };
      }
      const sign = cell.getChars() || ' ';
      // Position each word at its own column: viewers differ in how they treat spaces.
      if (sign === ' ' && !run.back) {
        flush();
        continue;
      }
      run.text += sign;
      run.cells += cell.getWidth();
    }
    flush();
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${(24 + COLUMNS * W).toFixed(0)} ${24 + ROWS * H}" font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="14" xml:space="preserve">
<rect width="100%" height="100%" rx="8" fill="#1d2024"/>
${boxes.join('\n')}
${texts.join('\n')}
</svg>
`;
}

function colour(value, rgb, palette) {
  if (rgb) return `#${value.toString(16).padStart(6, '0')}`;
  if (!palette) return undefined;
  const base = ['#1d2024', '#d9695f', '#8fbf7a', '#e0b35c', '#7aa5d8', '#b98bc9', '#6fbdb6', '#e6e1d6'];
  const bright = ['#7d7a73', '#f0867c', '#a9d894', '#f3c877', '#95bdec', '#cfa4de', '#8bd5ce', '#ffffff'];
  return value < 8 ? base[value] : value < 16 ? bright[value - 8] : '#e6e1d6';
}

function safe(text) {
  return text.replace(/[&<>]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[c]);
}
