import { readFileSync } from 'node:fs';
import { JSDOM } from 'jsdom';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, it } from 'vitest';
import { data } from '../../src/base/words.js';
import { documentAssets } from '../../src/commands/documents.js';
import { pdfOf } from '../../src/record/pdf.js';
import type { RecordView } from '../../src/record/schema.js';
import { unitDocument } from '../../src/record/unitblocks.js';
import { recordView } from '../../src/record/view.js';
import { CONTEXT, FINISHED, SETOUT, UNFINISHED } from './states.js';

const finished = recordView(FINISHED, SETOUT, CONTEXT);
let bytes: Uint8Array;
let read: Awaited<ReturnType<typeof reading>>;

beforeAll(async () => {
  bytes = await pdfOf(unitDocument(finished), documentAssets());
  read = await reading(bytes);
});

/** Text, outline and metadata as an independent reader sees them. */
async function reading(file: Uint8Array) {
  const pdf = await getDocument({ data: Uint8Array.from(file), verbosity: 0 }).promise;
  const pages: string[] = [];
  for (let i = 1; i <= pdf.numPages; i++) {
    const content = await (await pdf.getPage(i)).getTextContent();
    pages.push(content.items.map((item) => ('str' in item ? item.str : '')).join(' '));
  }
  return {
    pages,
    text: pages.join(' ').replace(/\s+/g, ''),
    outline: await pdf.getOutline(),
    metadata: await pdf.getMetadata(),
  };
}

const tight = (text: string) => text.replace(/\s+/g, '');
const readings = (view: RecordView) =>
  view.stages.flatMap(({ steps }) =>
    steps.flatMap(({ checks }) =>
      checks.flatMap((check) => [
        ...(check.answer
          ? [...check.answer.says.split('; '), ...check.answer.rules.map(({ says }) => says)]
          : []),
        ...check.earlier.flatMap(({ says }) => says.split('; ')),
      ]),
    ),
  );

describe('the PDF record', () => {
  it('holds every reading, limit, source, person and hash as text', () => {
    expect(readings(finished).length).toBeGreaterThan(15);
    for (const text of [
      ...readings(finished),
      'BS 4873:2009, 6.2',
      'Orla Tench (OT)',
      'Mr & Mrs Żółty <quay>',
      finished.seal.hash,
      finished.seal.code,
      'read the wrong corner',
      'sealed, not seen',
    ])
      expect(read.text).toContain(tight(text));
  });

  it('says the verdict on the first page, and on every page whose record it is', () => {
    expect(read.pages[0]).toContain(finished.verdict.line);
    for (const [i, page] of read.pages.entries()) {
      expect(page).toContain(`page ${i + 1} of ${read.pages.length}`);
      expect(page).toContain(finished.seal.code);
    }
  });

  it('has an outline and metadata', () => {
    const [top] = read.outline!;
    expect(top!.title).toBe('Quality record of window P02-1');
    expect(top!.items.map(({ title }) => title)).toContain('Every check, stage by stage');
    const info = read.metadata.info as Record<string, string>;
    expect(info.Title).toBe('Quality record P02-1, job pier-house');
    expect(info.Author).toBe(CONTEXT.maker.name);
    expect(info.Subject).toBe(finished.verdict.line);
    expect(info.CreationDate).toContain('20260309160000');
  });

  it('embeds its fonts and calls itself PDF/A-2b', () => {
    const raw = Buffer.from(bytes).toString('latin1');
    expect(raw).toContain('<pdfaid:part>2</pdfaid:part>');
    expect(raw).toContain('/FontFile2');
    expect(raw).not.toContain('/BaseFont /Helvetica');
  });

  it('is the same file for the same record', async () => {
    const again = await pdfOf(unitDocument(recordView(FINISHED, SETOUT, CONTEXT)), documentAssets());
    expect(Buffer.compare(Buffer.from(bytes), Buffer.from(again))).toBe(0);
  });

  it('says on its first page that an unfinished unit is not finished', async () => {
    const { pages } = await reading(
      await pdfOf(unitDocument(recordView(UNFINISHED, SETOUT, CONTEXT)), documentAssets()),
    );
    expect(pages[0]).toContain('NOT FINISHED: 2 of 3 steps done');
    expect(pages[0]).toContain('What is missing');
    expect(pages.every((page) => page.includes('NOT FINISHED'))).toBe(true);
  });

  it('shows a sign that its font has not as missing, and says where to read it', async () => {
    const { text } = await reading(
      await pdfOf(
        unitDocument(recordView(FINISHED, SETOUT, { ...CONTEXT, customer: '窓 shop' })),
        documentAssets(),
      ),
    );
    expect(text).toContain('\ufffdshop');
    expect(text).toContain('Somesignshavenopicture');
  });

  it('lays a cell that is longer than a page over several', async () => {
    const long = Array.from({ length: 900 }, (_, i) => `word${i}`).join(' ');
    const view: RecordView = {
      ...finished,
      notes: [{ line: 1, at: '2026-03-04T09:00:00.000Z', by: data('x'), text: data(`${long} ${long}`) }],
    };
    const { text } = await reading(await pdfOf(unitDocument(view), documentAssets()));
    for (const i of [0, 450, 899])
      expect(text.split(`word${i}word`).length + text.split(`word${i}Person`).length).toBeGreaterThan(2);
  });
});

interface Node {
  readonly role?: string;
  readonly alt?: string;
  readonly type?: string;
  readonly children?: readonly Node[];
}

describe('the structure for a screen reader', () => {
  const nodes = ({ children = [] }: Node): Node[] => children.flatMap((child) => [child, ...nodes(child)]);

  it('has headings, lists, tables with their heads, and drawings with their descriptions', async () => {
    const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
    expect(await document.getMarkInfo()).toMatchObject({ Marked: true });
    const all: Node[] = [];
    for (let n = 1; n <= document.numPages; n++)
      all.push(...nodes((await (await document.getPage(n)).getStructTree()) as Node));
    const count = (role: string) => all.filter((node) => node.role === role).length;
    expect(count('H1')).toBe(1);
    expect(count('H2')).toBeGreaterThan(8);
    for (const role of ['H3', 'P', 'L', 'LI', 'LBody', 'Table', 'TR', 'TH', 'TD'])
      expect(count(role), role).toBeGreaterThan(0);
    const figures = all.filter(({ role }) => role === 'Figure');
    expect(figures.length).toBe(1 + finished.asMeasured.length);
    for (const { alt } of figures) expect(alt).toMatch(/\w{4}/);
    await document.destroy();
  });

  it('leaves no text outside it but the foot of each page and heads said again', async () => {
    const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
    for (let n = 1; n <= document.numPages; n++) {
      const page = await document.getPage(n);
      const { items } = await page.getTextContent({ includeMarkedContent: true });
      let open: string[] = [];
      for (const item of items) {
        if (!('type' in item)) {
          if (item.str.trim() !== '') expect(open.length, `page ${n}: ${item.str}`).toBe(1);
        } else if (item.type === 'endMarkedContent') open = open.slice(0, -1);
        else open.push(item.type);
      }
    }
    await document.destroy();
  });

  it('has metadata that an XML reader can read, whatever the names', async () => {
    const named = { ...unitDocument(finished), author: data('Larch & Sons <windows>'), title: data('A & B') };
    const pdf = Buffer.from(await pdfOf(named, documentAssets())).toString('latin1');
    const xmp = pdf.slice(pdf.indexOf('<x:xmpmeta'), pdf.indexOf('</x:xmpmeta>') + 12);
    expect(xmp).toContain('Larch &amp; Sons &lt;windows&gt;');
    expect(xmp).toContain('<pdfaid:conformance>A</pdfaid:conformance>');
    expect(() => new JSDOM(xmp, { contentType: 'application/xml' })).not.toThrow();
    expect(pdf).toContain('(Larch & Sons <windows>)');
  });
});

it('embeds the font under a licence that is shipped with it', () => {
  const licence = readFileSync(new URL('../../src/record/assets/NotoSans-OFL.txt', import.meta.url), 'utf8');
  expect(licence).toMatch(/SIL Open Font License, Version 1\.1/);
});
