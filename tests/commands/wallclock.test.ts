/** Documents tell time by the clock on the workshop's wall, and are verified wherever and whenever that is done. */
import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { byTheClock, drawn, madeNow, ofUnit } from '../../src/commands/documents.js';
import { loadUnit } from '../../src/commands/unitload.js';
import { realDisk } from '../../src/store/disk.js';
import { openWorkshop } from '../../src/store/workshop.js';
import { command } from '../errors/museum.js';
import { builtWorkshop, JOB } from './built.js';

const FORMATS = ['text', 'html', 'pdf', 'json', 'csv'] as const;
const [before, inZone] = ['clock', 'zone'].map(
  (name) => (format: string) => `${name}.${format === 'text' ? 'txt' : format}`,
) as [(format: string) => string, (format: string) => string];
let root: string;
const verify = (file: string) => command(root, ['verify', join(root, file)]);
const record = (file: string, format: string) =>
  command(root, ['record', `${JOB}/Q1-1`, '--format', format, '--out', join(root, file)]);

beforeAll(async () => {
  root = builtWorkshop(false);
  for (const format of FORMATS) await record(before(format), format);
  appendFileSync(join(root, 'shared/workshop.yaml'), '\nzone: Asia/Kolkata\n');
  for (const format of FORMATS) await record(inZone(format), format);
});
afterAll(() => {
  process.env.TZ = 'UTC';
});

it('tell the times of the journal by the clock of the zone, and say which; data keeps UTC', () => {
  const lines = readFileSync(join(root, 'logs', JOB, 'Q1-1.jsonl'), 'utf8')
    .trimEnd()
    .split('\n');
  const closed = new Date(Date.parse(JSON.parse(lines.at(-1)!).at) + 330 * 60_000).toISOString();
  const text = readFileSync(join(root, inZone('text')), 'utf8').replaceAll(/\s+/g, ' ');
  expect(text).toContain(`Closed ${closed.slice(0, 19).replace('T', ' ')} by`);
  expect(text).toContain('times by the clock of Asia/Kolkata, UTC+05:30.');
  expect(text).toMatch(/printed 20[\d-]{8} [\d:]{8}, Asia\/Kolkata, UTC\+05:30/);
  expect(readFileSync(join(root, before('text')), 'utf8').replaceAll(/\s+/g, ' ')).toContain('times in UTC.');
  const data = JSON.parse(readFileSync(join(root, inZone('json')), 'utf8'));
  expect(data.made.zone.name).toBe('Asia/Kolkata');
  expect(data.seal.at).toMatch(/^2026-03-0\dT.*Z$/);
  expect(readFileSync(join(root, inZone('csv')), 'utf8').split('\n')[1]).toContain('2026-03-02T');
});

it.each(['UTC', 'America/St_Johns'])(
  'verify on a machine whose own zone is %s, before and after',
  async (zone) => {
    process.env.TZ = zone;
    for (const format of FORMATS)
      for (const file of [before(format), inZone(format)]) {
        const { code, text } = await verify(file);
        expect({ code, text }).toMatchObject({
          code: 0,
          text: expect.not.stringMatching(/does not hold|document-zone/),
        });
      }
  },
);

it.each([
  ['Asia/Kolkata', 'this machine knows Asia/Kolkata, UTC+05:30'],
  ['Mars/Olympus', 'this machine does not know that zone'],
])('one that tells the time of %s otherwise holds, with a note', async (name, says) => {
  const workshop = openWorkshop(root, realDisk);
  if (!workshop.ok) throw new Error('no workshop');
  const unit = loadUnit(realDisk, workshop.value, { job: JOB, unit: 'Q1-1' }, new Date().toISOString());
  if (!unit.ok) throw new Error('no unit');
  const made = byTheClock(workshop.value, [unit.value], madeNow(workshop.value, false), 'html');
  const zone = { name, offsets: [{ from: made.zone!.offsets[0]!.from, minutes: 600 }] };
  const document = ofUnit(workshop.value, unit.value, { ...made, zone }, 'unit');
  writeFileSync(join(root, 'other.html'), await drawn('html', document));
  const { code, text } = await verify('other.html');
  expect(text).toContain(`[verify.document-zone]`);
  expect(text).toContain(says);
  expect(code).toBe(0);
});

it('a table of figures, which does not say when it was made, says nothing of lines before that', async () => {
  const note = ['{"do":"note","text":"the customer called"}'];
  const fed = await command(root, ['feed', `${JOB}/Q1-1`, '--person', 'jb'], note);
  expect(fed.code, fed.text).toBe(0);
  const { text } = await verify(inZone('csv'));
  expect(text).toMatch(/has 1 more line than the document\. \[verify\.grown\]/);
});

it('a zone that nobody knows is refused', async () => {
  const file = join(root, 'shared/workshop.yaml');
  writeFileSync(file, readFileSync(file, 'utf8').replace('Asia/Kolkata', 'Kolkata/Asia'));
  const { code, text } = await command(root, ['lint']);
  expect(text).toContain('no time zone that this machine knows: write it as "Europe/Berlin"');
  expect(code).toBe(2);
  // A record needs none of today's files; but it does not pretend to know the clock.
  const made = await command(root, ['record', `${JOB}/Q1-1`]);
  expect(made.code).toBe(0);
  expect(made.text).toContain('no time zone that this machine knows');
  expect(made.text.replaceAll(/\s+/g, ' ')).toContain('times in UTC.');
});
