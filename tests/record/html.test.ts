import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { HtmlValidate } from 'html-validate';
import { JSDOM } from 'jsdom';
import { describe, expect, it } from 'vitest';
import { data } from '../../src/base/words.js';
import { gaugeStudy } from '../../src/figures/gauge.js';
import { seriesFigures } from '../../src/figures/series.js';
import { unitFigures } from '../../src/figures/unitfigures.js';
import { causesOf, failuresOf, timesOf, yieldsOf } from '../../src/figures/yields.js';
import { figuresDocument } from '../../src/record/figuresdocument.js';
import { escapeHtml, htmlOf } from '../../src/record/html.js';
import { collectionDocument, collectionView } from '../../src/record/job.js';
import { ledgerOf } from '../../src/record/ledger.js';
import { ledgerDocument } from '../../src/record/ledgerdocument.js';
import { overviewDocument } from '../../src/record/overviewdocument.js';
import { studyDocument } from '../../src/record/studydocument.js';
import { unitDocument } from '../../src/record/unitblocks.js';
import { recordView } from '../../src/record/view.js';
import { normals } from '../figures/normals.js';
import { CONTEXT, DRAFTS, FINISHED, LAST_DRAFTS, SETOUT, stateOf, UNFINISHED } from './states.js';

const finished = recordView(FINISHED, SETOUT, CONTEXT);
const unfinished = recordView(UNFINISHED, SETOUT, CONTEXT);
const layered = { ...CONTEXT, annex: false };
const inLayers = [FINISHED, UNFINISHED].map((state, i) => {
  const view = recordView(state, SETOUT, layered);
  // Two units, as in any job.
  return { ...view, unit: { ...view.unit, id: data(`P02-${i + 1}`) } };
});
const LEDGER_FACTS = { made: inLayers[0]!.made, workshop: inLayers[0]!.workshop, units: 2 };
const FIGURES_FACTS = { made: inLayers[0]!.made, over: data('Shop'), what: data('Diagonals') };
const UNITS = [FINISHED, UNFINISHED].map((state) => unitFigures(state, () => undefined));
function figuresPage() {
  const values = [...normals(40, 8), 9].map((value) => [value]);
  const figures = seriesFigures(values, false, { rules: ['R1'], limits: { low: -5, high: 5 } });
  if (!figures.ok) throw new Error('no figures');
  return figuresDocument(figures.value, { ...FIGURES_FACTS, unit: 'mm', limits: { low: -5, high: 5 } }, true);
}
const PAGES = {
  'a unit in layers': htmlOf(unitDocument(inLayers[0]!)),
  'a unit in layers, with its annex': htmlOf(
    unitDocument(recordView(FINISHED, SETOUT, { ...layered, annex: true })),
  ),
  'a job in layers': htmlOf(
    collectionDocument(collectionView(inLayers, { asked: { job: 'pier-house' } }, layered)),
  ),
  'a register': htmlOf(
    ledgerDocument(
      ledgerOf('nonconformities', inLayers, {
        entries: [],
        named: (id) => data(id),
        instruments: [],
        limits: [],
      }),
      LEDGER_FACTS,
    ),
  ),
  'figures of one thing measured': htmlOf(figuresPage()),
  'figures over units': htmlOf(
    overviewDocument([], {
      ...FIGURES_FACTS,
      units: 2,
      yields: yieldsOf(UNITS),
      failures: failuresOf(UNITS),
      causes: causesOf(UNITS),
      times: timesOf(UNITS),
    }),
  ),
  'a study': htmlOf(
    studyDocument(
      {
        ...{ kind: 'gauge', parts: 3, people: 2, trials: 2 },
        study: gaugeStudy([1, 2, 3].map((part) => [0, 0.2].map((by) => [part + by, part + by + 0.1]))),
      },
      FIGURES_FACTS,
    ),
  ),
  'a finished unit': htmlOf(unitDocument(finished)),
  'an unfinished unit': htmlOf(unitDocument(unfinished)),
  'a job': htmlOf(
    collectionDocument(collectionView([finished, unfinished], { asked: { job: 'pier-house' } }, CONTEXT)),
  ),
};

describe('the HTML record', () => {
  it('sets words that run to the left apart from the figures around them, and only those', () => {
    const html = htmlOf(
      unitDocument(recordView(FINISHED, SETOUT, { ...CONTEXT, customer: 'Ltd. דנה לוי, 24 סניף' })),
    );
    const under = /<p class="under">([^\n]*)<\/p>/.exec(html)![1]!;
    expect(under).toContain('Ltd. <bdi>דנה לוי</bdi>, 24 <bdi>סניף</bdi>');
    expect(PAGES['a finished unit']).not.toContain('<bdi>');
  });

  it.each(Object.entries(PAGES))('passes the validator: %s', async (_, html) => {
    const report = await new HtmlValidate({
      extends: ['html-validate:recommended', 'html-validate:document', 'html-validate:a11y'],
      // One file with its style inside is what is wanted; long words in tables are data.
      rules: { 'no-inline-style': 'error', 'long-title': 'off', 'require-sri': 'off' },
    }).validateString(html);
    const said = report.results.flatMap(({ messages }) =>
      messages.map((m) => `${m.line}:${m.column} ${m.ruleId} ${m.message}`),
    );
    expect(said).toEqual([]);
  });

  // The job's page holds a finished and an unfinished unit's record, so it has every kind of block there is. Without its
  // style sheet, which hides nothing but which jsdom applies so slowly that the check would take many times as long.
  it.each([
    'a job',
    'a job in layers',
    'a register',
    'figures of one thing measured',
    'figures over units',
    'a study',
  ] as const)(
    'passes the accessibility checker: %s',
    async (page) => {
      const html = PAGES[page].replace(/<style>[^<]*<\/style>/, '');
      const { window } = new JSDOM(html, { runScripts: 'outside-only', pretendToBeVisual: true });
      window.eval(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));
      const { axe } = window as unknown as { axe: typeof import('axe-core') };
      // Contrast needs a layout, which jsdom has not: it is checked by the numbers below.
      const results = await axe.run(window.document as never, {
        rules: { 'color-contrast': { enabled: false } },
      });
      expect(results.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      expect(results.passes.length).toBeGreaterThan(10);
      window.close();
    },
    60_000,
  );

  it('has tables with captions and heads that name their cells', () => {
    const { document } = new JSDOM(PAGES['a finished unit']).window;
    const tables = [...document.querySelectorAll('table')];
    expect(tables.length).toBeGreaterThan(8);
    for (const table of tables) {
      expect(table.caption?.textContent).toBeTruthy();
      expect(table.querySelectorAll('th[scope]').length).toBeGreaterThan(0);
    }
    expect(document.querySelectorAll('h1')).toHaveLength(1);
    expect(document.title).toBe('Quality record P02-1, job pier-house');
  });

  it('uses inks that can be read on their ground (WCAG 2.2, 1.4.3: at least 4.5 to 1)', () => {
    const luminance = (hex: string) => {
      const [r, g, b] = [1, 3, 5].map((i) => {
        const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
        return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
    };
    const inks = [...PAGES['a finished unit'].matchAll(/[{;]color:(#[0-9a-f]{6})/g)].map(([, ink]) => ink!);
    expect(inks.length).toBeGreaterThan(4);
    // Darkest ground any of them stands on.
    for (const ink of inks)
      expect((luminance('#fdf1f0') + 0.05) / (luminance(ink) + 0.05)).toBeGreaterThan(4.5);
  });
});

describe('hostile text', () => {
  const nasty = fc.oneof(
    fc.constantFrom(
      '<script>alert(1)</script>',
      '"><img src=x onerror=alert(1)>',
      "'-alert(1)-'",
      '&lt;b&gt;',
      '</style><b>',
      '\u001b[2J',
      '\u202egpj.exe',
      ']]>',
      '<!--',
    ),
    fc.string({ unit: 'binary', maxLength: 40 }),
  );

  it('never becomes markup', () => {
    fc.assert(
      fc.property(nasty, (text) => {
        const { document } = new JSDOM(`<p title="${escapeHtml(text)}">${escapeHtml(text)}</p>`).window;
        const p = document.querySelector('p')!;
        expect(p.children).toHaveLength(0);
        expect(p.attributes).toHaveLength(1);
        expect(p.getAttribute('title')).toBe(p.textContent);
        expect(p.textContent).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);
      }),
      { seed: 5, numRuns: 50 },
    );
  });

  it('leaves the document of a job full of it as it would be without', () => {
    const shape = (html: string) => {
      const { document } = new JSDOM(html).window;
      return [...document.querySelectorAll('*')].map(({ tagName }) => tagName).join(' ');
    };
    const made = (text: string) => {
      const drafts = [...DRAFTS, ...LAST_DRAFTS].map((draft) =>
        draft.kind === 'noted' || draft.kind === 'snag-raised' ? { ...draft, text } : draft,
      );
      const view = recordView(stateOf(drafts), SETOUT, {
        ...CONTEXT,
        customer: text,
        maker: { ...CONTEXT.maker, name: text },
      });
      return htmlOf(unitDocument(view));
    };
    const plainShape = shape(made('words'));
    for (const text of fc.sample(nasty, { seed: 6, numRuns: 6 }))
      expect(shape(made(text === '' ? 'x' : text))).toBe(plainShape);
  });
});

describe('in a browser', () => {
  const browser = ['chromium', 'chromium-browser', 'google-chrome'].find(
    (name) => spawnSync(name, ['--version']).status === 0,
  );

  it('opens without a complaint and prints on A4 sheets', ({ skip }) => {
    if (!browser) skip('no Chromium is installed on this machine, so the page was not opened in one');
    const folder = mkdtempSync(join(tmpdir(), 'record-'));
    try {
      writeFileSync(join(folder, 'record.html'), PAGES['a finished unit']);
      const ran = spawnSync(
        browser!,
        [
          '--headless',
          '--no-sandbox',
          '--disable-gpu',
          `--user-data-dir=${folder}/profile`,
          '--no-pdf-header-footer',
          `--print-to-pdf=${folder}/record.pdf`,
          `file://${folder}/record.html`,
        ],
        { encoding: 'utf8', timeout: 60_000 },
      );
      expect(ran.stderr).not.toMatch(/Refused to|Content Security Policy/);
      const pdf = readFileSync(join(folder, 'record.pdf'), 'latin1');
      // A4 in points: 595 x 842.
      const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, w, h]) => [
        Math.round(Number(w)),
        Math.round(Number(h)),
      ]);
      expect(boxes.length).toBeGreaterThan(0);
      for (const [w, h] of boxes) {
        expect(Math.abs(w! - 595)).toBeLessThanOrEqual(1);
        expect(Math.abs(h! - 842)).toBeLessThanOrEqual(1);
      }
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }, 90_000);
});
