/** The record in layers: what page one says in five seconds, where it leads, and what is told once. */
import { JSDOM, VirtualConsole } from 'jsdom';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { documentAssets } from '../../src/commands/documents.js';
import type { Block } from '../../src/record/blocks.js';
import { exceptionsOf } from '../../src/record/exceptions.js';
import { htmlOf } from '../../src/record/html.js';
import { collectionDocument, collectionView } from '../../src/record/job.js';
import { measuredIn } from '../../src/record/measuredblocks.js';
import { pdfOf } from '../../src/record/pdf.js';
import type { RecordView } from '../../src/record/schema.js';
import { textOf } from '../../src/record/text.js';
import { unitDocument } from '../../src/record/unitblocks.js';
import { recordView } from '../../src/record/view.js';
import { CONTEXT, FINISHED, SETOUT, UNFINISHED } from './states.js';

const layered = { ...CONTEXT, program: 'pinchrod 0.2.0', annex: false };
const finished = recordView(FINISHED, SETOUT, layered);
const open = recordView(UNFINISHED, SETOUT, layered);
const documentOf = (view: RecordView) => unitDocument(view);
type Table = Block & { kind: 'table' };
const tables = (view: RecordView): Table[] =>
  documentOf(view).blocks.filter((block): block is Table => block.kind === 'table');
const tableOf = (view: RecordView, caption: string): Table =>
  tables(view).find((table) => table.caption === caption)!;
const cellText = (cell: Table['rows'][number][number]): string =>
  typeof cell === 'string' ? cell : cell.map(({ text }) => text).join('\n');

describe('exceptions', () => {
  it('hold what failed first, what was conceded and what was made again, each once, with its reason', () => {
    const exceptions = exceptionsOf(finished);
    expect(exceptions.length).toBeGreaterThan(3);
    expect(exceptions.map(({ row }) => row)).toEqual(exceptions.map((_, i) => `E${i + 1}`));
    for (const { what, why, by } of exceptions) {
      expect(what).not.toBe('');
      expect(why.length).toBeGreaterThan(0);
      expect(by).not.toBe('');
    }
    const of = (kind: string) => exceptions.filter((each) => each.kind === kind).length;
    expect(of('conceded')).toBe(finished.counts.conceded);
    expect(of('snag')).toBe(finished.snags.length);
    expect(of('rework')).toBe(finished.reworks.length);
    expect(of('taken-back')).toBe(finished.corrections.length);
    expect(of('overridden')).toBe(finished.overrides.length);
    expect(of('coarse')).toBe(finished.counts.coarse ?? 0);
  });
  it('name what still fails in a unit that is open', () => {
    const failed = exceptionsOf(open).filter(({ kind }) => kind === 'failed');
    expect(failed.length).toBe(open.counts.failed);
  });
});

describe('page one', () => {
  it('leads to every exception that it names, and says of which kinds there are none', () => {
    const html = new JSDOM(htmlOf(documentOf(finished)), { virtualConsole: new VirtualConsole() }).window
      .document;
    const glance = [...html.querySelectorAll('table.facts')].find(
      (table) => table.querySelector('caption')?.textContent === 'At a glance',
    )!;
    const links = [...glance.querySelectorAll('a')];
    expect(links.length).toBeGreaterThan(3);
    for (const link of links) {
      const row = html.getElementById(link.getAttribute('href')!.slice(1))!;
      expect(row.tagName).toBe('TR');
      expect(row.querySelector('th')!.textContent).toBe(link.textContent!.split(' ')[0]);
    }
    expect(glance.textContent).toContain('None of these');
    // Before anything else that is long.
    const before = [...html.querySelectorAll('table, figure')];
    expect(before.indexOf(glance)).toBe(0);
  });
  it('says which record it is and what it takes the place of', () => {
    const text = textOf(documentOf(finished));
    expect(text).toContain(`${finished.unit.job}/${finished.unit.id}/${FINISHED.events.length}`);
    expect(text).toContain('whose last number is smaller');
  });
  it('has links in the PDF, each to a place that is there', async () => {
    const file = await pdfOf(documentOf(finished), documentAssets());
    const pdf = await getDocument({ data: Uint8Array.from(file), verbosity: 0 }).promise;
    const places = await pdf.getDestinations();
    const [annotations, content] = await Promise.all([
      (await pdf.getPage(1)).getAnnotations(),
      (await pdf.getPage(1)).getTextContent(),
    ]);
    const led = (annotations as { subtype: string; dest: string; contentsObj: { str: string } }[]).filter(
      ({ subtype }) => subtype === 'Link',
    );
    expect(led.length).toBeGreaterThan(3);
    const page = content.items.map((item) => ('str' in item ? item.str : '')).join(' ');
    for (const { dest, contentsObj } of led) {
      expect(Object.keys(places)).toContain(dest);
      if (contentsObj.str !== '') expect(page).toContain(contentsObj.str);
    }
  });
});

describe('measured values', () => {
  it('are those that an instrument shows: a count is none', () => {
    const kinds = new Set(measuredIn(finished).map(({ kind }) => kind));
    expect([...kinds].every((kind) => ['number', 'square', 'points'].includes(kind))).toBe(true);
    expect(measuredIn(finished).length).toBeGreaterThan(1);
    expect(tableOf(finished, 'Measured values').rows).toHaveLength(measuredIn(finished).length);
  });
  it('name limits and rules by codes that the legend tells once', () => {
    const legend = tableOf(finished, 'Limits and rules').rows.flatMap((row) => [
      [cellText(row[0]!), cellText(row[1]!)],
      [cellText(row[2]!), cellText(row[3]!)],
    ]);
    const told = legend.filter(([code]) => code !== '');
    expect(new Set(told.map(([code]) => code)).size).toBe(told.length);
    expect(new Set(told.map(([, text]) => text)).size).toBe(told.length);
    const used = new Set(
      tableOf(finished, 'Measured values').rows.flatMap((row) => cellText(row[3]!).match(/[#*]\d+/g) ?? []),
    );
    expect([...used].sort()).toEqual(told.map(([code]) => code!).sort());
  });
  it('lose nothing that was read', () => {
    const table = tableOf(finished, 'Measured values').rows;
    measuredIn(finished).forEach(({ answer }, i) => {
      for (const { value } of answer!.readings) expect(cellText(table[i]![2]!)).toContain(String(value));
    });
  });
});

it('steps that passed stand in a line each, with how many of their checks passed', () => {
  const text = tableOf(finished, 'Passed without a figure').rows.flatMap((row) => [
    ...cellText(row[1]!).split('\n'),
    ...cellText(row[2]!).split('\n'),
  ]);
  const steps = finished.stages.flatMap(({ steps }) =>
    steps.filter(({ checks }) =>
      checks.some((check) => check.answer && !['number', 'square', 'points'].includes(check.kind)),
    ),
  );
  for (const { title } of steps) expect(text.filter((line) => line.startsWith(`${title}: `))).toHaveLength(1);
});

it('the annex has every answer, and without it the record says where it is', () => {
  const whole = recordView(FINISHED, SETOUT, { ...layered, annex: true });
  const captions = (view: RecordView) =>
    documentOf(view).blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
  expect(captions(whole)).toContain('Every check, stage by stage');
  expect(captions(finished)).not.toContain('Every check, stage by stage');
  expect(textOf(documentOf(finished))).toContain('--annex');
});

it('no text of a PDF is smaller than 8 points', async () => {
  const file = await pdfOf(documentOf(finished), documentAssets());
  const pdf = await getDocument({ data: Uint8Array.from(file), verbosity: 0 }).promise;
  for (let n = 1; n <= pdf.numPages; n++) {
    const { items } = await (await pdf.getPage(n)).getTextContent();
    for (const item of items)
      if ('str' in item && item.str.trim() !== '')
        expect(
          Math.hypot(item.transform[2] as number, item.transform[3] as number),
          item.str,
        ).toBeGreaterThan(7.99);
  }
});

it('what people noted stands in the record with its annex and without', () => {
  expect(finished.notes.length).toBeGreaterThan(0);
  for (const annex of [true, false]) {
    const text = textOf(documentOf(recordView(FINISHED, SETOUT, { ...layered, annex }))).replaceAll(
      /\s+/g,
      ' ',
    );
    for (const { text: note } of finished.notes) expect(text).toContain(note.split(' ')[0]);
  }
});

it('a period tells of each unit what was not right, and its whole record only with the annex', () => {
  const page = (annex: boolean) => {
    const context = { ...layered, annex };
    const records = [recordView(FINISHED, SETOUT, context)];
    const view = collectionView(records, { asked: { since: '2026-01-01' } }, context);
    return textOf(collectionDocument(view));
  };
  for (const { row } of exceptionsOf(finished)) expect(page(false)).toMatch(new RegExp(`^${row} `, 'm'));
  expect(page(false)).not.toContain('MEASURED VALUES');
  expect(page(true)).toContain('MEASURED VALUES');
  expect(page(false).length * 2).toBeLessThan(page(true).length);
});
