/** A small copy of a photograph, for a document. The file that was kept, named by its hash, is what counts. */
import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';

/** Longer side of the copy, pixels. */
const SIDE = 160;
/** Of a larger picture only the small one that the camera put into the file is copied: to read all of it takes seconds. */
const MOST_PIXELS = 2_200_000;
/** By how much the camera's small picture may be wider or narrower than the large one, and still be taken for the same. */
const SAME_SHAPE = 0.04;

/** RGBA, row by row. */
interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** @returns a PNG in base64, which is written in a tenth of the time that a JPEG takes; undefined where the file holds no picture that can be read here */
export function smallCopy(bytes: Buffer): string | undefined {
  try {
    const exif = isJpeg(bytes) ? exifOf(bytes) : undefined;
    const whole = cameras(bytes, exif?.thumbnail) ?? pixelsOf(bytes);
    if (!whole) return undefined;
    const small = turned(shrunk(whole), exif?.orientation ?? 1);
    const png = new PNG({ width: small.width, height: small.height });
    png.data.set(small.data);
    return PNG.sync.write(png, { colorType: 2 }).toString('base64');
  } catch {
    // A file may be any bytes at all; it stays kept, and named by its hash.
    return undefined;
  }
}

/** The camera's own small picture; none where a later hand may have cut the large one to another shape. */
function cameras(bytes: Buffer, thumbnail: Buffer | undefined): Pixels | undefined {
  const [large, small] = [frameOf(bytes), thumbnail && frameOf(thumbnail)];
  if (!thumbnail || !large || !small) return undefined;
  const wider = small.width / small.height / (large.width / large.height) - 1;
  return Math.abs(wider) <= SAME_SHAPE ? pixelsOf(thumbnail) : undefined;
}

const isJpeg = (bytes: Buffer): boolean => bytes.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff]));
const PNG_SIGN = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

function pixelsOf(bytes: Buffer): Pixels | undefined {
  if (isJpeg(bytes)) {
    const { width, height } = frameOf(bytes) ?? { width: 0, height: 0 };
    if (width * height === 0 || width * height > MOST_PIXELS) return undefined;
    return jpeg.decode(bytes, { useTArray: true, maxMemoryUsageInMB: 512 });
  }
  if (!bytes.subarray(0, 8).equals(PNG_SIGN)) return undefined;
  if (bytes.readUInt32BE(16) * bytes.readUInt32BE(20) > MOST_PIXELS) return undefined;
  return PNG.sync.read(bytes);
}

/** Each segment before the scan: its marker, and its content without the length. */
function* segments(bytes: Buffer): Generator<{ readonly marker: number; readonly body: Buffer }> {
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1]!;
    const length = bytes.readUInt16BE(at + 2);
    if (marker === 0xda || length < 2) return;
    yield { marker, body: bytes.subarray(at + 4, at + 2 + length) };
    at += 2 + length;
  }
}

/** From the frame header: markers C0 to CF but for the tables among them. */
function frameOf(bytes: Buffer): { readonly width: number; readonly height: number } | undefined {
  for (const { marker, body } of segments(bytes))
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker))
      return { height: body.readUInt16BE(1), width: body.readUInt16BE(3) };
  return undefined;
}

interface Exif {
  /** 1 to 8, as TIFF 6.0 counts them. */
  readonly orientation: number;
  readonly thumbnail: Buffer | undefined;
}

/** Tags of the Exif standard (JEITA CP-3451): 0x0112 orientation; in the second directory 0x0201 and 0x0202, a JPEG's place and length. */
function exifOf(bytes: Buffer): Exif | undefined {
  for (const { marker, body } of segments(bytes)) {
    if (marker !== 0xe1 || body.toString('latin1', 0, 6) !== 'Exif\0\0') continue;
    const tiff = body.subarray(6);
    const small = tiff.toString('latin1', 0, 2) === 'II';
    const u16 = (at: number) => (small ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at));
    const u32 = (at: number) => (small ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at));
    const directory = (at: number) => {
      const tags = new Map<number, number>();
      const count = u16(at);
      for (let i = 0; i < count; i++) {
        const entry = at + 2 + i * 12;
        // Type 3 is a short, at the front of its four bytes.
        tags.set(u16(entry), u16(entry + 2) === 3 ? u16(entry + 8) : u32(entry + 8));
      }
      return { tags, next: u32(at + 2 + count * 12) };
    };
    const first = directory(u32(4));
    const second = first.next === 0 ? undefined : directory(first.next).tags;
    const [from, length] = [second?.get(0x0201), second?.get(0x0202)];
    return {
      orientation: first.tags.get(0x0112) ?? 1,
      thumbnail: from && length ? tiff.subarray(from, from + length) : undefined,
    };
  }
  return undefined;
}

/** Each pixel of the copy is the mean of those it stands for. What is clear shows white, as on paper. */
function shrunk({ width, height, data }: Pixels): Pixels {
  const scale = Math.min(1, SIDE / Math.max(width, height));
  const [w, h] = [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
  const out = new Uint8Array(w * h * 4);
  for (let y = 0; y < h; y++) {
    const [top, bottom] = span(y, h, height);
    for (let x = 0; x < w; x++) {
      const [left, right] = span(x, w, width);
      let [red, green, blue] = [0, 0, 0];
      for (let v = top; v < bottom; v++)
        for (let u = left; u < right; u++) {
          const from = (v * width + u) * 4;
          const opaque = data[from + 3]! / 255;
          const white = 255 - data[from + 3]!;
          red += data[from]! * opaque + white;
          green += data[from + 1]! * opaque + white;
          blue += data[from + 2]! * opaque + white;
        }
      const to = (y * w + x) * 4;
      const count = (bottom - top) * (right - left);
      out[to] = Math.round(red / count);
      out[to + 1] = Math.round(green / count);
      out[to + 2] = Math.round(blue / count);
      out[to + 3] = 255;
    }
  }
  return { width: w, height: h, data: out };
}

const span = (i: number, of: number, size: number): readonly [number, number] => {
  const from = Math.floor((i * size) / of);
  return [from, Math.max(from + 1, Math.floor(((i + 1) * size) / of))];
};

/** Upright: a camera that was held on its side says so, and leaves the rows as it read them. */
function turned(from: Pixels, orientation: number): Pixels {
  const { width: w, height: h, data } = from;
  if (orientation <= 1 || orientation > 8) return from;
  const across = orientation >= 5;
  const [width, height] = across ? [h, w] : [w, h];
  const out = new Uint8Array(data.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const [u, v] = SOURCE[orientation - 2]!(x, y, w - 1, h - 1);
      out.set(data.subarray((v * w + u) * 4, (v * w + u) * 4 + 4), (y * width + x) * 4);
    }
  return { width, height, data: out };
}

/** For orientations 2 to 8: which column and row of the file shows at column x, row y; `r` and `b` are its last ones. */
const SOURCE: readonly ((x: number, y: number, r: number, b: number) => readonly [number, number])[] = [
  (x, y, r) => [r - x, y],
  (x, y, r, b) => [r - x, b - y],
  (x, y, _r, b) => [x, b - y],
  (x, y) => [y, x],
  (x, y, _r, b) => [y, b - x],
  (x, y, r, b) => [r - y, b - x],
  (x, y, r) => [r - y, x],
];
