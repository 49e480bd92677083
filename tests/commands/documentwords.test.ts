/** A document names by whose words and clock it is told, and is told again by them when words have changed since. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { drawn, madeNow, ofUnit, ofUnits } from '../../src/commands/documents.js';
import { type LoadedUnit, loadUnit } from '../../src/commands/unitload.js';
import { knownWords, wordsHash } from '../../src/record/telling.js';
import { FORMER_WORDS } from '../../src/record/words/former.js';
import { realDisk } from '../../src/store/disk.js';
import { openWorkshop, type Workshop } from '../../src/store/workshop.js';
import { command } from '../errors/museum.js';
import { builtWorkshop, JOB } from './built.js';

/**
 * The words of documents, as they are now. A test fails here when one of them changes: add what it was to
 * src/record/words/former.ts under the hash that stands here, move that hash to the list below, and put the new one here.
 */
const NOW = '7ce5cb7743c476ae4e60acec82d02db632f5d609e1ddc4ee38f6f3fa04315657';
const BEFORE: readonly string[] = [
  '',
  '1db0bb595de5c1b5d012f002053b58d44009dfb61a49115b1e1423c1aa2882aa',
  '55189fa29d5fd82702468de1ce02f33e74c96a7a69de1642a08b163ff2cfca1a',
  '7318927c3d66d8b24859b2af6c65c27381cd1df7f56279445022d638238c7b6d',
];

const FORMATS = ['text', 'html', 'pdf', 'json', 'csv'] as const;
let root: string;
let workshop: Workshop;
let unit: LoadedUnit;

beforeAll(() => {
  root = builtWorkshop(false);
  const opened = openWorkshop(root, realDisk);
  if (!opened.ok) throw new Error('no workshop');
  workshop = opened.value;
  const loaded = loadUnit(realDisk, workshop, { job: JOB, unit: 'Q1-1' }, new Date().toISOString());
  if (!loaded.ok) throw new Error('no unit');
  unit = loaded.value;
});

async function printed(words: string | undefined, what: 'unit' | 'particulars' | 'units') {
  const folder = mkdtempSync(join(root, 'printed-'));
  // Former words come with the arrangement of then.
  const made = { ...madeNow(workshop, false), words, ...(words === wordsHash() ? {} : { annex: undefined }) };
  const drawable =
    what === 'units'
      ? ofUnits(workshop, [unit], made, { asked: { job: JOB } })
      : ofUnit(workshop, unit, made, what);
  const files = FORMATS.filter((format) => what !== 'particulars' || !['json', 'csv'].includes(format));
  for (const format of files) writeFileSync(join(folder, `record.${format}`), await drawn(format, drawable));
  return files.map((format) => join(folder, `record.${format}`));
}

const held = async (files: readonly string[]) => {
  const said: string[] = [];
  for (const file of files) {
    const { code, text } = await command(root, ['verify', file]);
    if (code !== 0 || text.includes('does not hold')) said.push(text);
  }
  return said;
};

it('every former wording is kept', () => {
  expect(wordsHash(), 'a word of documents has changed: see NOW in this file').toBe(NOW);
  expect(knownWords()).toEqual([NOW, ...BEFORE]);
});

it('names its language and words in every format that a person reads, and in its data', async () => {
  const out = (name: string) => join(root, name);
  for (const name of ['now.txt', 'now.html', 'now.json'])
    expect((await command(root, ['record', `${JOB}/Q1-1`, '--out', out(name)])).code).toBe(0);
  const says = `in English, words ${NOW.slice(0, 8)}`;
  expect(readFileSync(out('now.txt'), 'utf8')).toContain(says);
  expect(readFileSync(out('now.html'), 'utf8')).toContain(says);
  expect(JSON.parse(readFileSync(out('now.json'), 'utf8')).made).toMatchObject({
    language: 'en',
    words: NOW,
  });
});

it.each(['unit', 'particulars', 'units'] as const)(
  'printed before there were catalogues, and told otherwise then, still verifies: %s',
  async (what) => {
    const files = await printed(undefined, what);
    if (what === 'unit') {
      expect(readFileSync(files[0]!, 'utf8')).toContain('CORRECTIONS AND WHY');
      expect(readFileSync(files[0]!, 'utf8')).not.toContain('in English, words');
    }
    expect(await held(files)).toEqual([]);
  },
);

it.each(['unit', 'particulars', 'units'] as const)(
  'printed before words changed still verifies: %s',
  async (what) => {
    const then = 'f'.repeat(64);
    const former = FORMER_WORDS as Map<string, Readonly<Record<string, string>>>;
    former.set(then, {
      'doc-released': 'Done and let go',
      'doc-outcome-pass': 'passed',
      'length-top': 'upper',
      'doc-window': 'What it is',
      'doc-and': '{ $most } & { $last }',
    });
    try {
      const files = await printed(then, what);
      if (what === 'unit') expect(readFileSync(files[0]!, 'utf8')).toContain('*** Done and let go ***');
      expect(await held(files)).toEqual([]);
    } finally {
      former.delete(then);
    }
  },
);

it('told by words that nobody kept, it says so', async () => {
  const files = await printed('e'.repeat(64), 'unit');
  // Word for word the same: there is nothing to say.
  expect(await held(files)).toEqual([]);
  const text = readFileSync(files[0]!, 'utf8');
  writeFileSync(files[0]!, text.replace('Finished and released', 'Done and let go'));
  const [said] = await held(files.slice(0, 1));
  expect(said).toContain('it may only be worded otherwise. [verify.document-differs]');
});

it('saved by an editor that begins a text with a mark of its own, it still verifies', async () => {
  const files = await printed(wordsHash(), 'unit');
  for (const file of files.slice(0, 2)) writeFileSync(file, `\ufeff${readFileSync(file, 'utf8')}`);
  expect(await held(files.slice(0, 2))).toEqual([]);
});

it('does not verify where it says that it is told in another language', async () => {
  const drawable = ofUnit(workshop, unit, { ...madeNow(workshop, false), language: 'fr' }, 'unit');
  const file = join(root, 'french.html');
  writeFileSync(file, await drawn('html', drawable));
  const [said] = await held([file]);
  expect(said).toContain('told in "fr", in which this version of the program tells no document.');
});
