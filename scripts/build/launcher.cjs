#!/usr/bin/env node
'use strict';
/*
 * Runs the program's parts, each when it is first asked for. A bundle holds parts by name, and V8's code for the ones that
 * a usual run of the verb at hand takes is kept beside it: node cannot be told to do this for files of its own modules.
 */
const { appendFileSync, mkdirSync, readFileSync, writeFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');

// The folder after --workshop is no verb.
const word = process.argv
  .slice(2)
  .find((each, i, all) => !each.startsWith('-') && all[i - 1] !== '--workshop');
const verb = word !== undefined && /^[a-z]{1,20}$/.test(word) && word !== 'demo' ? word : 'bench';
const keep = process.env.PINCHROD_KEEP_CODE;
const here = {
  build: '@BUILD@',
  file: __filename,
  get url() {
    return require('node:url').pathToFileURL(__filename).href;
  },
};
const BUNDLES = ['quick', 'work', 'screens'];
const USUAL = 2;
let growth = USUAL;
const opened = new Map();
const loaded = new Map();

function open(bundle) {
  const file = join(__dirname, `${bundle}.cjs`);
  const codeOf = (name) => join(__dirname, 'code', `${bundle}-${name}.bin`);
  // A seldom verb takes the code of one that uses most of what the others do.
  const cachedData = readAny(keep ? [codeOf(verb)] : [codeOf(verb), codeOf('record')]);
  youngSpaceGrows(USUAL);
  const script = new Script(readFileSync(file, 'latin1'), {
    filename: file,
    ...(cachedData ? { cachedData } : {}),
  });
  const parts = script.runInThisContext();
  opened.set(bundle, parts);
  if (opened.has('work')) {
    youngSpaceGrows(16);
    optimizeLater();
  }
  if (keep)
    process.on('exit', () => {
      mkdirSync(join(__dirname, 'code'), { recursive: true });
      writeFileSync(codeOf(verb), script.createCachedData());
    });
  return parts;
}

/**
 * Work that is done once makes much that stays, and each time the young space is full all of that is copied. By growing in
 * fewer steps the space is full less often, which takes a twentieth off a record. Kept code counts only under the flags it was kept
 * under, so the flag is as usual whenever code is taken or kept; and a bench, which lives long, is left alone.
 */
function youngSpaceGrows(times) {
  if (keep || verb === 'bench' || times === growth) return;
  growth = times;
  require('node:v8').setFlagsFromString(`--semi-space-growth-factor=${times}`);
}

/**
 * Most of what a short run does is done a few hundred times, too seldom for code that was made faster to earn the time it
 * took to make: a tenth of a lint, a twentieth of a record. Whether kept code counts does not depend on this flag.
 */
function optimizeLater() {
  if (keep || verb === 'bench') return;
  require('node:v8').setFlagsFromString('--interrupt-budget=200000');
}

function readAny(files) {
  for (const file of files)
    try {
      return readFileSync(file);
    } catch {}
  return undefined;
}

function part(name) {
  const known = loaded.get(name);
  if (known) return known.exports;
  for (const bundle of name.startsWith('./lib-') ? [name.slice(2, -4)] : BUNDLES) {
    const make = (opened.get(bundle) ?? open(bundle))[name];
    if (!make) continue;
    const made = { exports: {} };
    loaded.set(name, made);
    make.call(made.exports, made, made.exports, load, here);
    return made.exports;
  }
  return require(name);
}

function load(name) {
  return name.startsWith('./') ? part(name) : require(name);
}
load.resolve = require.resolve;

part('./main.js');
if (process.env.PINCHROD_KEEP_PARTS)
  process.on('exit', () =>
    appendFileSync(process.env.PINCHROD_KEEP_PARTS, `${[...loaded.keys()].join('\n')}\n`),
  );
