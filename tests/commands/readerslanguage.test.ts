/** What the verbs print, and what is typed after them, in the reader's language. */
import { appendFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import type { Reader } from '../../src/base/words.js';
import { HELP } from '../../src/commands/help.js';
import { readerOf } from '../../src/commands/reader.js';
import { builtWorkshop, JOB } from './built.js';

let root: string;
let reader: Reader;
beforeAll(async () => {
  root = builtWorkshop(false);
  appendFileSync(join(root, 'shared/workshop.yaml'), '\nzone: Asia/Tokyo\n');
  reader = await readerOf('de');
});

async function german(verb: string, ...args: string[]) {
  const lines: string[] = [];
  const io = {
    workshop: root,
    reader,
    out: (text: string) => lines.push(text),
    err: (text: string) => lines.push(text),
  };
  const { run } = await import(`../../src/commands/${verb}.ts`);
  const code: number = await run(args, io);
  return { code, text: lines.join('\n') };
}

it.each([
  [['board'], /Q1-1 .* fertig +\d+\/\d+ +Festfeld/],
  [
    ['board', '--hand-over', '--since', '2026-03-01'],
    /^Übergabe um [\d: -]+; Notizen seit 2026-03-01 00:00\n/,
  ],
  [['trace', '--lot', 'SEALANT-2603'], /Charge SEALANT-2603 \(sealant\)|Nichts gefunden\./],
  [['trace', '--person', 'jb'], /von jb/],
  [['verify'], /alles vollständig und unverändert\./],
  [['key', 'show'], /hat keinen Schlüssel/],
  [['register'], /: Eintrag \d+\n/],
  [['setup'], /x nachzuweisen {2}saw|\* gilt {2}saw/],
])('%j', async (args, says) => {
  const { text } = await german(...(args as [string, ...string[]]));
  expect(text).toMatch(says);
});

it('yes and no are taken in the reader’s language', async () => {
  const given = (word: string) =>
    german(
      'setup',
      'first-off',
      'saw',
      '--person',
      'jb',
      ...['A1', 'S1', 'R2', 'F1', 'C1'].flatMap((each) => ['--instrument', each]),
      '--value',
      `guards=${word}`,
    );
  for (const word of ['ja', 'nein', 'yes', 'no'])
    expect((await given(word)).text).not.toContain('build.answer-kind');
  expect((await given('vielleicht')).text).toContain('build.answer-kind');
});

it('a first-off that fails says by what, and the example in its help is taken', async () => {
  const tried = (hole: string) =>
    german('setup', 'first-off', 'drill', '--person', 'jb', '--instrument', 'C1', ...VALUES, `hole=${hole}`);
  const VALUES = ['--value', 'jig=ja', '--value', 'bushes=yes', '--value'];
  const failed = await tried('103');
  expect(failed.text).toMatch(
    /^FAIL {2}drill muss neu eingestellt und nachgewiesen werden\.\n {6}hole: 103 \(/m,
  );
  expect(failed.code).toBe(1);
  expect(HELP.setup).toContain(
    'pinchrod setup first-off drill --person jb --instrument C1 --value jig=yes --value bushes=yes --value hole=100',
  );
  expect(await tried('100')).toMatchObject({ code: 0, text: expect.stringContaining('PASS') });
});

it('a job with a unit that is not begun is not removed', async () => {
  const job = join(root, `shared/jobs/${JOB}.yaml`);
  appendFileSync(
    job,
    '  - mark: Q2\n    width: 900\n    height: 1200\n    room: hall\n    layout: {light: fixed}\n',
  );
  const { code, text } = await german('archive', JOB, '--out', join(root, '../a.zip'), '--remove');
  expect(text).toContain('Q2-1');
  expect(text).toContain('[archive.not-removed]');
  expect(code).not.toBe(0);
});
