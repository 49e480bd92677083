/** Documents of every kind and format that come back: each holds as it was made, and a changed fact is found and named. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { deflateSync, inflateSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as record from '../../src/commands/record.js';
import * as verify from '../../src/commands/verify.js';
import { BENCH, builtWorkshop, JOB, ran } from './built.js';

let model: string;
let folder: string;
const file = (name: string) => join(folder, name);
const before = process.env.PINCHROD_BENCH;
const PERIOD = ['--since', '2000-01-01', '--until', '2999-12-31'];
const SHEETS: [string, string[]][] = [
  ['unit', ['Q1-1', '--initials']],
  ['particulars', ['Q1-1', '--declaration']],
  ['job', [JOB]],
  ['period', PERIOD],
];

beforeAll(() => {
  process.env.PINCHROD_BENCH = BENCH;
  model = builtWorkshop(true);
  folder = mkdtempSync(join(tmpdir(), 'pinchrod-'));
}, 60_000);
afterAll(() => {
  if (before === undefined) delete process.env.PINCHROD_BENCH;
  else process.env.PINCHROD_BENCH = before;
  rmSync(folder, { recursive: true, force: true });
  rmSync(dirname(model), { recursive: true, force: true });
});

const made = async (name: string, args: readonly string[]): Promise<Buffer> => {
  expect((await ran(record, model, ...args, '--out', file(name))).code).toBe(0);
  return readFileSync(file(name));
};
const checked = (name: string, bytes: string | Uint8Array) => {
  writeFileSync(file(name), bytes);
  return ran(verify, model, file(name));
};

describe.each(SHEETS)('of a %s', (what, args) => {
  // The sheet of particulars is no table.
  const endings = ['txt', 'html', 'json', 'csv', 'pdf'].filter(
    (ending) => what !== 'particulars' || !['json', 'csv'].includes(ending),
  );
  it.each(endings)('.%s holds as it was made', async (ending) => {
    const name = `whole.${ending}`;
    const { code, out } = await checked(name, await made(name, args));
    expect(out).toContain('says what the journal gives');
    expect(out).toMatch(/Q1-1 of quay-end, \d+ lines/);
    expect(code).toBe(0);
  });
});

describe('a changed fact is found and named', () => {
  it.each(['txt', 'html', 'csv'])('in .%s', async (ending) => {
    const text = (await made(`r.${ending}`, ['Q1-1'])).toString('utf8');
    const [was, is] = ending === 'csv' ? [/,pass,/, ',FAIL,'] : [/mm/, 'cm'];
    expect(text).toMatch(was);
    const { code, out } = await checked(`r.${ending}`, text.replace(was, is));
    expect(code).toBe(1);
    expect(out).toContain('[verify.document-differs]');
    if (ending === 'csv')
      expect(out).toMatch(/Row \d+, [\w.@/-]+, verdict is "FAIL"; the journal gives "pass"/);
    else expect(out).toMatch(/Line \d+ says ".*cm.*"; the journal gives ".*mm.*"/);
  });

  it('in the sheet of particulars, and in a job’s document', async () => {
    const sheet = (await made('s.txt', ['Q1-1', '--declaration'])).toString('utf8');
    expect((await checked('s.txt', sheet.replace('Record closed', 'Record opened'))).out).toContain('says "');
    const job = (await made('j.html', [JOB])).toString('utf8');
    const { code, out } = await checked(
      'j.html',
      job.replace('finished and released', 'finished and approved'),
    );
    expect(code).toBe(1);
    expect(out).toContain('finished and approved');
  });

  it('in a PDF: page and words are named, however it is packed', async () => {
    const pdf = await made('r.pdf', ['Q1-1']);
    const at = pdf.indexOf('\nstream\n');
    expect(at).toBeGreaterThan(0);
    // The same in another packing says the same.
    expect(
      (
        await checked(
          'r.pdf',
          repacked(pdf, (stream) => stream),
        )
      ).code,
    ).toBe(0);
    // The first text of the first page shown twice over: another text stands there.
    const changed = repacked(pdf, (stream) => stream.replace(/\[<([0-9a-f]{4})([0-9a-f]{4})/, '[<$2$1'));
    const { code, out } = await checked('r.pdf', changed);
    expect(code).toBe(1);
    expect(out).toMatch(/Page 1 says ".+"; the journal gives ".+"/);
    // Something added behind, as an editor saves its changes.
    expect((await checked('r.pdf', Buffer.concat([pdf, Buffer.from('9 0 obj\n<<>>\nendobj\n')]))).code).toBe(
      1,
    );
    expect((await checked('r.pdf', pdf.subarray(0, pdf.length / 2))).code).toBe(1);
  });

  it('also that a unit of the period is left out', async () => {
    const shop = join(folder, 'shop');
    cpSync(model, shop, { recursive: true });
    const none = JSON.parse(
      (await ran(record, shop, '--since', '2000-01-01', '--until', '2000-01-02', '--format', 'json')).out,
    );
    writeFileSync(file('p.json'), JSON.stringify({ ...none, asked: { since: '2000-01-01' } }));
    expect(await ran(verify, shop, file('p.json'))).toMatchObject({
      code: 1,
      out: expect.stringContaining('It leaves out Q1-1 of quay-end'),
    });
  });
});

/** Every packed stream of a PDF unpacked, changed, and packed again with another strength; lengths put right. */
function repacked(pdf: Buffer, change: (stream: string) => string): Buffer {
  const pieces: Buffer[] = [];
  let from = 0;
  for (;;) {
    const at = pdf.indexOf('\nstream\n', from);
    if (at < 0) break;
    const head = pdf.subarray(from, at).toString('latin1');
    const length = Number(/.*\/Length (\d+)/s.exec(head)![1]);
    const body = pdf.subarray(at + 8, at + 8 + length);
    const packed = /.*\/FlateDecode/s.test(head.slice(head.lastIndexOf(' 0 obj')));
    const plain = packed ? inflateSync(body) : body;
    const text = plain.toString('latin1');
    const next = packed
      ? deflateSync(Buffer.from(text.includes('BT\n') ? change(text) : text, 'latin1'), { level: 1 })
      : body;
    pieces.push(
      Buffer.from(head.replace(/(.*\/Length )\d+/s, `$1${next.length}`), 'latin1'),
      Buffer.from('\nstream\n'),
      next,
    );
    from = at + 8 + length;
  }
  return Buffer.concat([...pieces, pdf.subarray(from)]);
}

it('the sheet of particulars is no table: it is not given as one', async () => {
  for (const format of ['csv', 'json']) {
    const { code, err } = await ran(record, model, 'Q1-1', '--declaration', '--format', format);
    expect(code).toBe(2);
    expect(err).toContain(format);
  }
});

it.each(['pdf', 'html'])('with its annex and on other paper, .%s holds as it was made', async (ending) => {
  const name = `letter.${ending}`;
  const bytes = await made(name, ['Q1-1', '--annex', '--paper', 'letter']);
  expect(bytes.toString('latin1')).toContain(ending === 'pdf' ? '[0 0 612 792]' : 'size:letter');
  expect((await checked(name, bytes)).out).toContain('says what the journal gives');
});
