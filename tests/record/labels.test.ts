import { createRequire } from 'node:module';
import {
  BarcodeFormat,
  BinaryBitmap,
  DecodeHintType,
  HybridBinarizer,
  MultiFormatReader,
  RGBLuminanceSource,
} from '@zxing/library';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { documentAssets } from '../../src/commands/documents.js';
import { readUnitCode } from '../../src/record/codes.js';
import { type Label, STOCKS, sheets } from '../../src/record/labelmarks.js';
import { labelsPdf } from '../../src/record/labelpdf.js';
import { labelPng } from '../../src/record/labelpng.js';
import { liftCaution, partLabel, unitLabel } from '../../src/record/labels.js';
import { labelSvg, sheetSvg } from '../../src/record/labelsvg.js';
import { tellingOf } from '../../src/record/telling.js';
import type { Part } from '../../src/window/types.js';
import { SETOUT } from './states.js';

const { say } = tellingOf({});
const options = (name: string) => {
  const { label } = STOCKS.find((stock) => stock.name === name)!;
  return { ...label, say, workshop: 'Quay Lane Windows', triangle: 'apex-at-hinge' as const };
};
const PART: Part = {
  says: 'frame head',
  kind: 'bar',
  mass_kg: 1.2,
  seat: null,
  id: 'frame-head',
  role: 'frame-head',
  light: null,
  profile: 'w52-frame',
  length: 1000,
  quantity: 2,
  ends: [45, 45],
  datum: 'left end, seen from outside',
  label: 'frame head',
  marks: [
    { kind: 'divider-line', at: 500.04, moved_from: null, reason: null, side: 'inner side', item: 'D1' },
  ],
};

interface Pixels {
  readonly width: number;
  readonly height: number;
  /** RGBA */
  readonly data: Uint8Array | Uint8ClampedArray;
}

/** Reads a code from pixels by an independent decoder (ZXing). */
function scan({ width, height, data }: Pixels, format: BarcodeFormat): string {
  const grey = new Uint8ClampedArray(width * height);
  for (let i = 0; i < grey.length; i++) grey[i] = data[i * 4]!;
  const reader = new MultiFormatReader();
  reader.setHints(new Map<DecodeHintType, unknown>([[DecodeHintType.POSSIBLE_FORMATS, [format]]]));
  return reader
    .decode(new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(grey, width, height))))
    .getText();
}

const words = (label: Label) => label.marks.flatMap((mark) => (mark.kind === 'words' ? [mark.text] : []));

describe('unit label', () => {
  it.each(STOCKS.map(({ name }) => name))('is read back from PNG, QR code and Code 128, on %s', (name) => {
    const label = unitLabel(SETOUT, options(name));
    const png = PNG.sync.read(Buffer.from(labelPng(label, 203, documentAssets())));
    expect([png.width, png.height]).toEqual([
      Math.round((label.w * 203) / 25.4),
      Math.round((label.h * 203) / 25.4),
    ]);
    for (const format of [BarcodeFormat.QR_CODE, BarcodeFormat.CODE_128])
      expect(readUnitCode(scan(png, format))).toEqual({ kind: 'unit', job: 'pier-house', unit: 'P02-1' });
    expect(label.code).toBe(scan(png, BarcodeFormat.QR_CODE));
  });

  it('says identity, size, handing, mass and lift caution, and its code in letters', () => {
    for (const { name } of STOCKS) {
      const all = words(unitLabel(SETOUT, options(name))).join(' ');
      for (const fact of [
        'P02-1',
        'job pier-house',
        '1000 x 700 mm',
        'hinged at the top, seen from outside',
        '24.4 kg: TWO PEOPLE',
        'pier-house/P02-1/',
      ])
        expect(all, name).toContain(fact);
    }
  });

  it('shouts where one person may not lift it', () => {
    expect(liftCaution(say, { ...SETOUT, mass_kg: 15 })).toBe('15 kg: one person');
    expect(liftCaution(say, { ...SETOUT, mass_kg: 16 })).toBe('16 kg: one or two people');
    expect(liftCaution(say, { ...SETOUT, mass_kg: 31 })).toBe('31 kg: TWO PEOPLE');
    expect(liftCaution(say, { ...SETOUT, mass_kg: 61 })).toBe('61 kg: LIFTING AID');
  });

  it('leaves Code 128 out where its bars would be too narrow, and says so', () => {
    const unit = { ...SETOUT.unit, job: 'a-job-with-a-very-long-name-indeed-2026' };
    const label = unitLabel({ ...SETOUT, unit }, options('a4-21'));
    expect(label.left.join()).toMatch(/Code 128/);
    const png = PNG.sync.read(Buffer.from(labelPng(label, 203, documentAssets())));
    expect(scan(png, BarcodeFormat.QR_CODE)).toBe(label.code);
  });

  it('keeps everything inside the label', () => {
    for (const { name } of STOCKS) {
      const label = unitLabel(SETOUT, options(name));
      for (const mark of label.marks) {
        const [xs, ys] =
          mark.kind === 'box'
            ? [
                [mark.x, mark.x + mark.w],
                [mark.y, mark.y + mark.h],
              ]
            : mark.kind === 'line'
              ? [
                  [mark.x1, mark.x2],
                  [mark.y1, mark.y2],
                ]
              : [[mark.x], [mark.y - mark.size, mark.y]];
        for (const x of xs) expect(x >= 0 && x <= label.w, `${name} ${JSON.stringify(mark)}`).toBe(true);
        for (const y of ys) expect(y >= 0 && y <= label.h, `${name} ${JSON.stringify(mark)}`).toBe(true);
      }
    }
  });

  it('never lets a name from a file become markup', () => {
    const unit = { ...SETOUT.unit, room: '<script>"&' };
    const svg = labelSvg(unitLabel({ ...SETOUT, unit }, options('roll-100x60')));
    expect(svg).not.toContain('<script');
    expect(svg).toContain('&lt;script&gt;');
  });
});

describe('part label', () => {
  it('says what the piece is, its length, ends and marks, and opens the unit when scanned', () => {
    const label = partLabel(SETOUT, PART, 2, options('a4-21'));
    const all = words(label).join(' ');
    for (const fact of [
      'P02-1',
      'frame head',
      '1000 mm',
      '45°',
      'piece 2 of 2',
      'divider-line 500',
      'left end',
    ])
      expect(all).toContain(fact);
    const png = PNG.sync.read(Buffer.from(labelPng(label, 203, documentAssets())));
    expect(readUnitCode(scan(png, BarcodeFormat.QR_CODE))).toMatchObject({ kind: 'unit', unit: 'P02-1' });
  });
});

describe('sheets', () => {
  it('fill places left to right, then down, then on the next sheet, after those that are used', () => {
    const stock = STOCKS.find(({ name }) => name === 'a4-8')!;
    const label = unitLabel(SETOUT, options('a4-8'));
    const pages = sheets(
      Array.from({ length: 8 }, () => label),
      stock,
      3,
    );
    expect(pages.map(({ length }) => length)).toEqual([5, 3]);
    expect(pages[0]![0]).toMatchObject({ x: stock.first.x + stock.step.x, y: stock.first.y + stock.step.y });
    expect(pages[1]![0]).toMatchObject(stock.first);
    for (const { columns, rows, first, step, label: size, page } of STOCKS) {
      expect(first.x + (columns - 1) * step.x + size.w).toBeLessThanOrEqual(page.w);
      expect(first.y + (rows - 1) * step.y + size.h).toBeLessThanOrEqual(page.h);
    }
  });

  const canvasOf = () => {
    try {
      return createRequire(import.meta.url)('@napi-rs/canvas') as typeof import('@napi-rs/canvas');
    } catch {
      return undefined;
    }
  };

  it('are read back from SVG drawn by another program', async ({ skip }) => {
    const canvas = canvasOf();
    if (!canvas) skip('no canvas is installed on this machine, so the SVG was not drawn');
    const stock = STOCKS[0]!;
    const label = unitLabel(SETOUT, options(stock.name));
    const image = await canvas!.loadImage(Buffer.from(sheetSvg(sheets([label], stock)[0]!, stock)));
    const [width, height] = [1200, 720];
    const board = canvas!.createCanvas(width, height).getContext('2d');
    board.drawImage(image, 0, 0, width, height);
    const pixels = { width, height, data: board.getImageData(0, 0, width, height).data };
    for (const format of [BarcodeFormat.QR_CODE, BarcodeFormat.CODE_128])
      expect(scan(pixels, format)).toBe(label.code);
  });

  it('are read back from PDF drawn by another program', async ({ skip }) => {
    const canvas = canvasOf();
    const stock = STOCKS[0]!;
    const label = unitLabel(SETOUT, options(stock.name));
    const bytes = await labelsPdf(
      [label, label],
      stock,
      0,
      { at: '2026-03-09T16:00:00.000Z', title: 'Labels' },
      documentAssets(),
    );
    const pdf = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0 }).promise;
    expect(pdf.numPages).toBe(2);
    const page = await pdf.getPage(1);
    const text = (await page.getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join(' ');
    expect(text).toContain(label.code);
    if (!canvas) skip('no canvas is installed on this machine, so the PDF was not drawn');
    const viewport = page.getViewport({ scale: 4 });
    const [width, height] = [Math.round(viewport.width), Math.round(viewport.height)];
    const board = canvas!.createCanvas(width, height).getContext('2d');
    await page.render({ canvas: null, canvasContext: board as never, viewport }).promise;
    const pixels = { width, height, data: board.getImageData(0, 0, width, height).data };
    for (const format of [BarcodeFormat.QR_CODE, BarcodeFormat.CODE_128])
      expect(scan(pixels, format)).toBe(label.code);
  });
});

it('the lines of a light are broken where it opens inwards, and whole where it opens outwards', () => {
  const broken = (opens_in: boolean) => {
    const lights = SETOUT.lights.map((light) => ({ ...light, opens_in }));
    const { marks } = unitLabel({ ...SETOUT, lights }, options('roll-100x60'));
    return marks.filter((mark) => mark.kind === 'line' && mark.dashed).length;
  };
  expect(broken(true)).toBe(2);
  expect(broken(false)).toBe(0);
});
