import fc from 'fast-check';
import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import { expect, it } from 'vitest';
import { smallCopy } from '../../src/record/photograph.js';

type Colour = readonly [number, number, number];
const RED: Colour = [220, 30, 30];
const GREEN: Colour = [30, 200, 30];
const BLUE: Colour = [30, 30, 220];
const GREY: Colour = [128, 128, 128];

/** Four quarters: top left, top right, bottom left, bottom right. */
function quarters(width: number, height: number, colours: readonly Colour[]): Buffer {
  const data = Buffer.alloc(width * height * 4, 255);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const colour = colours[(y * 2 >= height ? 2 : 0) + (x * 2 >= width ? 1 : 0)]!;
      data.set(colour, (y * width + x) * 4);
    }
  return data;
}

const jpegOf = (width: number, height: number, colours: readonly Colour[]): Buffer =>
  jpeg.encode({ width, height, data: quarters(width, height, colours) }, 95).data as Buffer;

/** Puts an Exif segment behind the start of the image: orientation, and a thumbnail where one is given. Big-endian. */
function withExif(image: Buffer, orientation: number, thumbnail?: Buffer): Buffer {
  const entry = (tag: number, type: number, value: number) => {
    const out = Buffer.alloc(12);
    out.writeUInt16BE(tag, 0);
    out.writeUInt16BE(type, 2);
    out.writeUInt32BE(1, 4);
    if (type === 3) out.writeUInt16BE(value, 8);
    else out.writeUInt32BE(value, 8);
    return out;
  };
  const u16 = (value: number) => Buffer.from([value >> 8, value & 255]);
  const u32 = (value: number) =>
    Buffer.from([value >>> 24, (value >> 16) & 255, (value >> 8) & 255, value & 255]);
  const first = 8;
  const second = first + 2 + 12 + 4;
  const at = second + 2 + 24 + 4;
  const tiff = Buffer.concat([
    Buffer.from('MM\0*', 'latin1'),
    u32(first),
    u16(1),
    entry(0x0112, 3, orientation),
    u32(thumbnail ? second : 0),
    ...(thumbnail
      ? [u16(2), entry(0x0201, 4, at), entry(0x0202, 4, thumbnail.length), u32(0), thumbnail]
      : []),
  ]);
  const body = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  return Buffer.concat([
    image.subarray(0, 2),
    Buffer.from([0xff, 0xe1]),
    u16(body.length + 2),
    body,
    image.subarray(2),
  ]);
}

const read = (copy: string | undefined) => PNG.sync.read(Buffer.from(copy!, 'base64'));

/** Which of the four colours is nearest in the middle of each quarter. */
function seen(copy: string | undefined): string {
  const { width, height, data } = read(copy);
  const names: readonly (readonly [string, Colour])[] = [
    ['r', RED],
    ['g', GREEN],
    ['b', BLUE],
    ['y', GREY],
  ];
  return [
    [0.25, 0.25],
    [0.75, 0.25],
    [0.25, 0.75],
    [0.75, 0.75],
  ]
    .map(([u, v]) => {
      const at = (Math.floor(v! * height) * width + Math.floor(u! * width)) * 4;
      const far = ([, colour]: (typeof names)[number]) =>
        colour.reduce((sum, value, c) => sum + Math.abs(value - data[at + c]!), 0);
      return names.reduce((best, each) => (far(each) < far(best) ? each : best))[0];
    })
    .join('');
}

it('a photograph is shrunk to 160 pixels on its longer side, and a small one is left as large as it is', () => {
  expect(read(smallCopy(jpegOf(960, 480, [RED, GREEN, BLUE, GREY])))).toMatchObject({
    width: 160,
    height: 80,
  });
  expect(read(smallCopy(jpegOf(96, 48, [RED, GREEN, BLUE, GREY])))).toMatchObject({ width: 96, height: 48 });
  expect(seen(smallCopy(jpegOf(960, 480, [RED, GREEN, BLUE, GREY])))).toBe('rgby');
});

it('what is clear in a PNG shows white', () => {
  const png = new PNG({ width: 40, height: 40 });
  png.data.fill(0);
  const { data } = read(smallCopy(PNG.sync.write(png)));
  expect(Math.min(...data.subarray(0, 3))).toBeGreaterThan(250);
});

/** How a picture of red, green over blue, grey stands upright: Exif 2.3, table of orientations (from memory). */
it.each([
  [1, 'rgby', 160, 80],
  [2, 'gryb', 160, 80],
  [3, 'ybgr', 160, 80],
  [4, 'byrg', 160, 80],
  [5, 'rbgy', 80, 160],
  [6, 'bryg', 80, 160],
  [7, 'ygbr', 80, 160],
  [8, 'gyrb', 80, 160],
] as const)('orientation %i is turned upright', (orientation, quarter, width, height) => {
  const copy = smallCopy(withExif(jpegOf(480, 240, [RED, GREEN, BLUE, GREY]), orientation));
  expect(seen(copy)).toBe(quarter);
  expect(read(copy)).toMatchObject({ width, height });
});

it('of a picture of 12 megapixels the small one that the camera put into the file is taken, or none', () => {
  const large = jpegOf(16, 16, [GREY, GREY, GREY, GREY]);
  // A frame header that says 4000 by 3000: its pixels are never read.
  const at = large.indexOf(Buffer.from([0xff, 0xc0]));
  large.writeUInt16BE(3000, at + 5);
  large.writeUInt16BE(4000, at + 7);
  expect(smallCopy(large)).toBeUndefined();
  expect(seen(smallCopy(withExif(large, 1, jpegOf(160, 120, [RED, GREEN, BLUE, GREY]))))).toBe('rgby');
  // Of another shape: the large picture was cut after the camera had written it.
  expect(smallCopy(withExif(large, 1, jpegOf(160, 90, [RED, GREEN, BLUE, GREY])))).toBeUndefined();
});

it('any bytes give a copy or none, and never an error', () => {
  const whole = withExif(
    jpegOf(64, 48, [RED, GREEN, BLUE, GREY]),
    6,
    jpegOf(32, 24, [RED, GREEN, BLUE, GREY]),
  );
  fc.assert(
    fc.property(fc.nat(whole.length - 1), fc.nat(255), fc.nat(whole.length), (at, value, cut) => {
      const changed = Buffer.from(whole);
      changed[at] = value;
      smallCopy(changed.subarray(0, cut));
      smallCopy(changed);
    }),
    { numRuns: 100, seed: 25 },
  );
});
