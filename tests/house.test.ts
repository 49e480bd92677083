/** The import law: who may import whom, and what the pure rooms must not touch. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const SRC = resolve(import.meta.dirname, '../src');

/** Room -> rooms it may import from (itself always). */
const MAY: Record<string, readonly string[]> = {
  ground: [],
  measure: ['ground'],
  window: ['ground', 'measure'],
  procedure: ['ground', 'measure', 'window'],
  build: ['ground', 'measure', 'window', 'procedure'],
  record: ['ground', 'measure', 'window', 'procedure', 'build'],
  train: ['ground', 'measure', 'window', 'procedure', 'build'],
  store: ['ground', 'measure', 'window', 'procedure', 'build'],
  bench: ['ground', 'measure', 'window', 'procedure', 'build', 'record', 'train', 'store'],
  commands: [
    'ground',
    'measure',
    'window',
    'procedure',
    'build',
    'record',

    'train',
    'store',
    'bench',
  ],
};
const PURE = ['ground', 'measure', 'window', 'procedure', 'build', 'record', 'train'];
const EFFECTS =
  /^(node:)?(fs|fs\/promises|child_process|net|http|https|os|tty|readline|worker_threads|timers|timers\/promises|process)$/;

interface Import {
  readonly file: string;
  readonly room: string;
  readonly spec: string;
}

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? sources(path) : /\.tsx?$/.test(entry.name) ? [path] : [];
  });
}

const files = sources(SRC).map((path) => ({
  path,
  file: relative(SRC, path),
  room: relative(SRC, path).split('/')[0]!,
  text: readFileSync(path, 'utf8'),
}));

const imports: Import[] = files.flatMap(({ file, room, text }) =>
  [...text.matchAll(/(?:\bfrom\s+|\bimport\s*\(\s*|^import\s+)['"]([^'"]+)['"]/gm)].map((match) => ({
    file,
    room,
    spec: match[1]!,
  })),
);

describe('the import law', () => {
  it('finds the rooms', () => {
    expect(files.length).toBeGreaterThan(20);
    for (const { room, file } of files)
      if (file !== 'main.ts') expect(Object.keys(MAY), `${file} is in an unknown room`).toContain(room);
  });

  it('rooms import only rooms below them', () => {
    const wrong = imports.flatMap(({ file, room, spec }) => {
      if (file === 'main.ts' || !spec.startsWith('.')) return [];
      const target = relative(SRC, resolve(SRC, dirname(file), spec)).split('/')[0]!;
      return target === room || MAY[room]!.includes(target) ? [] : [`${file} imports ${target}`];
    });
    expect(wrong).toEqual([]);
  });

  it('pure rooms touch no disk, no terminal, no process', () => {
    const wrong = imports
      .filter(({ room }) => PURE.includes(room))
      .filter(({ spec }) => EFFECTS.test(spec) || /^(ink|react|lowdb|ink-select-input)/.test(spec))
      .map(({ file, spec }) => `${file} imports ${spec}`);
    expect(wrong).toEqual([]);
  });

  it('pure rooms read no clock, no chance and no environment', () => {
    const wrong = files
      .filter(({ room }) => PURE.includes(room))
      .flatMap(({ file, text }) =>
        [
          ...text.matchAll(
            /Date\.now\(|new Date\(\)|Math\.random\(|performance\.now\(|process\.|randomUUID|randomBytes/g,
          ),
        ]
          .map((match) => match.index)
          .filter((index) => !/^\s*(\/\/|\*|\/\*)/.test(lineAt(text, index)))
          .map((index) => `${file}: ${lineAt(text, index).trim()}`),
      );
    expect(wrong).toEqual([]);
  });

  it('only bench and its parts know the terminal library, and only main ends the process', () => {
    const wrong = imports
      .filter(({ room, spec }) => room !== 'bench' && /^(ink|react|ink-select-input)(\/|$)/.test(spec))
      .map(({ file, spec }) => `${file} imports ${spec}`);
    expect(wrong).toEqual([]);
    const exits = files
      .filter(({ file, text }) => file !== 'main.ts' && /process\.exit\(/.test(text))
      .map(({ file }) => file);
    expect(exits).toEqual([]);
  });
});

function lineAt(text: string, index: number): string {
  const start = text.lastIndexOf('\n', index) + 1;
  const end = text.indexOf('\n', index);
  return text.slice(start, end < 0 ? undefined : end);
}
