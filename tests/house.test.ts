/** The law of the house: who may import whom, what the pure rooms must not touch, and one meaning a name. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const SRC = resolve(import.meta.dirname, '../src');

/** Each room may import itself and those before it here, but for what NOT names. */
const ROOMS = [
  'base',
  'measure',
  'window',
  'procedure',
  'unit',
  'figures',
  'record',
  'training',
  'store',
  'server',
  'session',
  'tui',
  'commands',
] as const;
const NOT: Readonly<Record<string, readonly string[]>> = {
  training: ['record'],
  store: ['record', 'training'],
  server: ['record', 'training'],
};
const PURE = ['base', 'measure', 'window', 'procedure', 'unit', 'figures', 'record', 'training'];
/** Names that more than one file exports, each with its reason. */
const SHARED_NAMES: Readonly<Record<string, string>> = {
  run: 'every verb of the command line is a module with `run`',
};
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

/** Every file with the files that it imports, of types too. */
const graph = new Map(
  files.map(({ file, path }) => [
    file,
    imports
      .filter((each) => each.file === file && each.spec.startsWith('.'))
      .flatMap(({ spec }) => {
        const target = resolve(dirname(path), spec).replace(/\.js$/, '');
        return files.filter((each) => each.path.replace(/\.tsx?$/, '') === target).map((each) => each.file);
      }),
  ]),
);

/** Files that can be reached from themselves, each circle as the path that closes it. */
function circles(): string[] {
  const found: string[] = [];
  const done = new Set<string>();
  const visit = (file: string, trail: readonly string[]): void => {
    const at = trail.indexOf(file);
    if (at >= 0) {
      found.push([...trail.slice(at), file].join(' -> '));
      return;
    }
    if (done.has(file)) return;
    for (const next of graph.get(file) ?? []) visit(next, [...trail, file]);
    done.add(file);
  };
  for (const file of graph.keys()) visit(file, []);
  return found;
}

describe('the import law', () => {
  it('no imports go in a circle, of types neither', () => {
    expect([...graph.values()].flat().length).toBeGreaterThan(500);
    expect(circles()).toEqual([]);
  });

  it('a name that is exported means one thing', () => {
    const homes = new Map<string, Set<string>>();
    for (const { file, text } of files)
      for (const [, name] of text.matchAll(
        /^export (?:declare |abstract |async )*(?:const|let|function\*?|class|interface|type|enum) (\w+)/gm,
      ))
        homes.set(name!, (homes.get(name!) ?? new Set()).add(file));
    expect(homes.size).toBeGreaterThan(500);
    const twice = [...homes].filter(([, where]) => where.size > 1).map(([name]) => name);
    expect(twice.sort()).toEqual(Object.keys(SHARED_NAMES).sort());
  });

  it('finds the rooms', () => {
    expect(files.length).toBeGreaterThan(20);
    for (const { room, file } of files)
      if (!/^(cli|untyped.d)\.ts$/.test(file)) expect(ROOMS, `${file} is in an unknown room`).toContain(room);
  });

  it('rooms import only rooms below them', () => {
    const wrong = imports.flatMap(({ file, room, spec }) => {
      if (file === 'cli.ts' || !spec.startsWith('.')) return [];
      const target = relative(SRC, resolve(SRC, dirname(file), spec)).split('/')[0]!;
      const [from, to] = [room, target].map((each) => (ROOMS as readonly string[]).indexOf(each));
      return to! >= 0 && to! <= from! && !NOT[room]?.includes(target) ? [] : [`${file} imports ${target}`];
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

  it('only tui knows the terminal library, and only cli.ts ends the process', () => {
    const wrong = imports
      .filter(({ room, spec }) => room !== 'tui' && /^(ink|react|ink-select-input)(\/|$)/.test(spec))
      .map(({ file, spec }) => `${file} imports ${spec}`);
    expect(wrong).toEqual([]);
    const exits = files
      .filter(({ file, text }) => !/^(cli|untyped.d)\.ts$/.test(file) && /process\.exit\(/.test(text))
      .map(({ file }) => file);
    expect(exits).toEqual([]);
  });
});

function lineAt(text: string, index: number): string {
  const start = text.lastIndexOf('\n', index) + 1;
  const end = text.indexOf('\n', index);
  return text.slice(start, end < 0 ? undefined : end);
}
