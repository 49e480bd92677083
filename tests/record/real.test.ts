/** The record of a demonstration unit: real job, profile set, procedure and limits, built through the real decisions and fold. */
import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { documentAssets } from '../../src/commands/documents.js';
import { recordCsv } from '../../src/record/csv.js';
import { htmlOf } from '../../src/record/html.js';
import { pdfOf } from '../../src/record/pdf.js';
import { recordSchema } from '../../src/record/schema.js';
import { textOf } from '../../src/record/text.js';
import { unitDocument } from '../../src/record/unitblocks.js';
import { recordView } from '../../src/record/view.js';
import { fold } from '../../src/unit/fold.js';
import { parseJob } from '../../src/window/job.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { setOut } from '../../src/window/setout.js';
import { whole } from '../unit/demonstration.js';
import { CONTEXT } from './states.js';

const UNIT = 'P05-1';
const text = (file: string) => ({
  file,
  text: readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8'),
});
const job = parseJob(text('shared/jobs/pier-house.yaml'));
const set = parseProfileSet(text('shared/profile-sets/w52.yaml'));
if (!job.ok || !set.ok) throw new Error('the demonstration workshop does not read');
const made = setOut(job.value.units.find(({ id }) => id === UNIT)!, set.value);
const { state } = whole(UNIT);
const view = recordView(state, made, { ...CONTEXT, at: state.events.at(-1)!.at });
const checks = view.stages.flatMap(({ steps }) => steps.flatMap((step) => step.checks));

describe('the record of a demonstration unit', () => {
  it('is finished, whole, and answers to the published schema', () => {
    expect(view.verdict).toMatchObject({ finished: true, tone: 'good' });
    expect(view.missing).toEqual([]);
    expect(checks.length).toBeGreaterThan(70);
    // What the program works out has no answer, and says so.
    const unanswered = checks.filter(({ answer }) => answer === undefined);
    expect(unanswered.length).toBeGreaterThan(0);
    for (const check of unanswered)
      expect(check).toMatchObject({ kind: 'computed', verdict: 'pass', remark: 'worked out by the program' });
    expect(recordSchema.safeParse(view).error).toBeUndefined();
    expect(view.seal).toMatchObject({
      closed: true,
      hash: state.events.at(-1)!.hash,
      lines: state.events.length,
    });
  });

  it('draws the unit, and every frame and sash as it was measured', () => {
    expect(view.drawing?.svg).toMatch(/^<svg/);
    expect(view.asMeasured.length).toBeGreaterThanOrEqual(2);
    for (const { svg, facts } of view.asMeasured) {
      expect(svg).toMatch(/^<svg/);
      expect(facts.join()).toMatch(/Nominal/);
    }
  });

  it('has every limit with its source, and every measured reading with its instrument', () => {
    const measured = checks.filter(({ kind }) => kind === 'square');
    expect(measured.length).toBeGreaterThan(0);
    for (const { answer, asks } of measured) {
      expect(answer!.rules.length, asks).toBeGreaterThan(0);
      for (const rule of answer!.rules) expect(rule.source, asks).not.toBe('');
      expect(
        answer!.readings.every(({ instrument }) => instrument !== undefined),
        asks,
      ).toBe(true);
    }
  });

  it('says the same in every format', async () => {
    const document = unitDocument(view);
    const pdf = await getDocument({
      data: Uint8Array.from(await pdfOf(document, documentAssets())),
      verbosity: 0,
    }).promise;
    const pages: string[] = [];
    for (let i = 1; i <= pdf.numPages; i++)
      pages.push(
        (await (await pdf.getPage(i)).getTextContent()).items
          .map((item) => ('str' in item ? item.str : ''))
          .join(''),
      );
    const tight = (s: string) => s.replace(/\s+/g, '');
    const printed = tight(pages.join(''));
    const html = htmlOf(document)
      .replace(/<[^>]*>/g, '')
      .replaceAll('&#39;', "'")
      .replaceAll('&quot;', '"')
      .replaceAll('&amp;', '&')
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>');
    for (const { answer } of checks)
      for (const said of answer?.says.split('; ') ?? []) {
        expect(printed).toContain(tight(said));
        expect(tight(html)).toContain(tight(said));
      }
    expect(recordCsv([view]).trimEnd().split('\r\n')).toHaveLength(checks.length + 1);
    expect(textOf(document)).toContain('Finished and released');
  });

  it('says at every point of the way how far the unit is, and never that it is finished before it is', () => {
    const { events, route } = state;
    for (const n of [1, 2, 40, Math.floor(events.length / 2), events.length - 1]) {
      const part = recordView(fold(route, events.slice(0, n)), made, CONTEXT);
      expect(part.verdict.finished).toBe(false);
      expect(part.verdict.line).toMatch(/^NOT FINISHED/);
      expect(part.missing.length).toBeGreaterThan(0);
    }
  });
});
