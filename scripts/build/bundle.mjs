import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { build, transform } from 'esbuild';

/** Libraries of documents and labels: larger than all the rest, and wanted seldom. */
const LARGE = ['pdfkit', 'bwip-js', 'fontkit'];
/** What most commands name and few run: parts of their own, or they would be run with what the bundler lays beside them. */
const SELDOM = [
  'src/ground/carefulyaml.ts',
  'src/measure/instrumentsfile.ts',
  'src/measure/limitsfile.ts',
  'src/procedure/translationschema.ts',
  'src/record/schema.ts',
  'src/record/proofread.ts',
  'src/store/setups.ts',
];
/** Whose parts no command without a screen may load. */
const SCREEN = /node_modules\/(ink|react|react-reconciler|yoga-layout)\//;

/**
 * Writes lib-*.cjs into `outdir` and cuts the program into parts: gives each part's function as text by the part's name,
 * those that no command without a screen loads at its start, and the paths of all files in the bundles.
 *
 * The bundler cuts the program into parts (one for each import() and for what several of them share) as ES modules, which
 * node can't run with a code cache; so each part becomes a function, as node's own CommonJS loader makes of a file, and
 * the functions of many parts one file. A part that is not asked for costs neither its compilation nor its top level.
 */
export async function bundle(root, outdir) {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const common = {
    absWorkingDir: root,
    bundle: true,
    platform: 'node',
    target: 'node20',
    minify: true,
    legalComments: 'none',
    metafile: true,
  };
  const libraries = await Promise.all(
    LARGE.map((name) =>
      build({
        ...common,
        format: 'cjs',
        write: false,
        stdin: { contents: `module.exports = require('${name}');`, resolveDir: root },
        define: { 'import.meta.url': '__here.url', __filename: '__here.file' },
        plugins: [quickInflate],
        logLevel: 'error',
      }),
    ),
  );
  for (const [i, name] of LARGE.entries()) {
    const [{ text }] = libraries[i].outputFiles;
    writeBundle(outdir, `lib-${name}`, new Map([[`./lib-${name}.cjs`, functionOf(text)]]), () => true);
  }
  const program = await build({
    ...common,
    format: 'esm',
    splitting: true,
    write: false,
    entryPoints: ['src/main.ts', ...SELDOM, ...catalogues(root)].map((path) => ({
      in: path,
      out: nameOf(path),
    })),
    outdir,
    chunkNames: '[hash]',
    jsx: 'automatic',
    define: {
      'process.env.NODE_ENV': '"production"',
      'process.env.DEV': '"false"',
      'import.meta.url': '__here.url',
      PINCHROD_VERSION: JSON.stringify(version),
      PINCHROD_BUILD: '__here.build',
    },
    plugins: [synchronous, quickWidth, apart],
    logLevel: 'warning',
  });
  const parts = new Map(
    await Promise.all(
      program.outputFiles.map(async ({ path, text }) => [`./${basename(path)}`, await asFunction(text)]),
    ),
  );
  const noScreen = partsWithoutScreen(program.metafile.outputs);
  const screens = new Set([...parts.keys()].filter((part) => !noScreen.has(basename(part))));
  const inputs = [program, ...libraries].flatMap(({ metafile }) => Object.keys(metafile.inputs));
  return { parts, screens, inputs };
}

/**
 * Catalogues of messages are parts of their own. Most files say at their top level which catalogue they raise from, and
 * would else load with it what the bundler lays beside it: schemas, and the library that makes them.
 */
const catalogues = (root) =>
  readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('messages.ts'))
    .map((path) => `src/${path.replaceAll('\\', '/')}`)
    .sort();

const nameOf = (path) =>
  path
    .replace(/^src\//, '')
    .replace(/\.ts$/, '')
    .replaceAll('/', '-');

/** One script that gives an object of the parts that are `wanted`. All ASCII: the launcher reads a byte a character. */
export function writeBundle(outdir, name, parts, wanted) {
  const members = [...parts].filter(([part]) => wanted(part)).sort(([a], [b]) => (a < b ? -1 : 1));
  const text = members.map(([part, make]) => `${JSON.stringify(part)}:${make}`).join(',\n');
  writeFileSync(join(outdir, `${name}.cjs`), `({\n${text}\n})`);
}

async function asFunction(text) {
  const { code } = await transform(text, {
    format: 'cjs',
    target: 'node20',
    minifyWhitespace: true,
    // A script has no import(): it becomes a promise of require().
    supported: { 'dynamic-import': false },
    charset: 'ascii',
  });
  return functionOf(whenUsed(code));
}

const functionOf = (code) => `function(module,exports,require,__here){${ascii(code)}\n}`;

/** In regular expressions the bundler leaves what is not ASCII. */
const ascii = (code) =>
  code.replace(/[^\0-\x7f]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);

/**
 * Each part that this one imports is loaded when something of it is first used, not before: a command that only prints its
 * help, or refuses a word, then loads next to nothing. No file of src is imported for its effects alone.
 */
function whenUsed(code) {
  const loads = new Map();
  const rest = code.replace(
    /\bvar (import_[\w$]+)=((?:__toESM\()?require\("[^"]+"\)(?:,1)?\)?);/g,
    (_, name, load) => {
      loads.set(name, load);
      return `var ${name};`;
    },
  );
  return rest.replace(/(var )?\b(import_[\w$]+)\b/g, (whole, declared, name) =>
    declared || !loads.has(name) ? whole : `(${name}||=${loads.get(name)})`,
  );
}

/** The parts that some command loads at its start, of all those commands whose start needs no screen. */
function partsWithoutScreen(outputs) {
  const byName = new Map(Object.entries(outputs).map(([path, made]) => [basename(path), made]));
  const closure = (name, seen = new Set()) => {
    if (seen.has(name)) return seen;
    seen.add(name);
    for (const { path, kind } of byName.get(name)?.imports ?? [])
      if (kind === 'import-statement' && byName.has(basename(path))) closure(basename(path), seen);
    return seen;
  };
  const screen = (names) =>
    [...names].some((name) => Object.keys(byName.get(name).inputs).some((input) => SCREEN.test(input)));
  const kept = new Set();
  const visit = (name, seen) => {
    if (seen.has(name)) return;
    seen.add(name);
    const names = closure(name);
    if (screen(names)) return;
    for (const each of names) kept.add(each);
    for (const each of names)
      for (const { path, kind } of byName.get(each).imports)
        if (kind === 'dynamic-import' && byName.has(basename(path))) visit(basename(path), seen);
  };
  visit('main.js', new Set());
  return kept;
}

/** What the terminal library waits for at its top level, which a function cannot. */
const synchronous = {
  name: 'synchronous',
  setup(b) {
    // Its devtools are never wanted at a bench, nor its own version for them.
    b.onLoad({ filter: /ink[\\/]build[\\/]reconciler\.js$/ }, ({ path }) => ({
      contents: readFileSync(path, 'utf8')
        .replace("await import('./devtools.js')", 'undefined')
        .replace('await loadPackageJson()', 'undefined'),
    }));
    // Its layout engine is loaded by src/bench/layoutengine.ts before the library is.
    b.onLoad({ filter: /yoga-layout[\\/]dist[\\/]src[\\/]index\.js$/ }, () => ({
      contents:
        "export default globalThis[Symbol.for('pinchrod.layout-engine')];\nexport * from './generated/YGEnums.js';",
    }));
  },
};

/** The terminal library and its helpers measure texts as the bench does: src/bench/stringwidth.ts says why. */
const quickWidth = {
  name: 'quick-width',
  setup(b) {
    const ours = join('src', 'bench', 'stringwidth.ts');
    b.onResolve({ filter: /^string-width$/ }, ({ importer }) =>
      importer.endsWith(ours) ? undefined : { path: join(b.initialOptions.absWorkingDir, ours) },
    );
  },
};

/** The libraries unpack their tables of signs each time they are loaded, in a script that a browser can run; node does it itself. */
const quickInflate = {
  name: 'quick-inflate',
  setup(b) {
    b.onLoad({ filter: /tiny-inflate[\\/]index\.js$/ }, () => ({
      contents: `const { inflateRawSync } = require('node:zlib');
module.exports = (from, to) => {
  const made = inflateRawSync(from);
  to.set(made);
  return to.subarray(0, made.length);
};`,
    }));
  },
};

const apart = {
  name: 'apart',
  setup(b) {
    const filter = new RegExp(`^(${LARGE.join('|')})(/.*)?$`);
    b.onResolve({ filter }, ({ path }) => ({ path: `./lib-${path.split('/')[0]}.cjs`, external: true }));
  },
};
