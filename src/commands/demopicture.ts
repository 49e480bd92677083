/** A picture that stands for a photograph in the demonstration: whole, large enough, and unlike the one before. */
import { PNG } from 'pngjs';

let made = 0;

/** PNG of the given size in pixels. */
export function demoPicture(width = 640, height = 480): Buffer {
  const png = new PNG({ width, height });
  png.data.fill(0xff);
  made += 1;
  png.data.writeUIntBE(made, 0, 3);
  return PNG.sync.write(png, { colorType: 2, deflateLevel: 1 });
}
