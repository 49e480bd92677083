/** A grid of pixels, dark or not. A pixel is dark where its middle is inside a shape. */
type Point = readonly [number, number];

export class Raster {
  readonly dark: Uint8Array;
  readonly width: number;
  readonly height: number;

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
    this.dark = new Uint8Array(width * height);
  }

  /** Edges are rounded to whole pixels, so neighbouring bars neither overlap nor gape. */
  box(left: number, top: number, right: number, bottom: number): void {
    const [x0, x1] = [Math.max(0, Math.round(left)), Math.min(this.width, Math.round(right))];
    for (let y = Math.max(0, Math.round(top)); y < Math.min(this.height, Math.round(bottom)); y++)
      this.dark.fill(1, y * this.width + x0, y * this.width + x1);
  }

  /** Rings by the non-zero winding rule, as font outlines are meant. */
  fill(rings: readonly (readonly Point[])[]): void {
    const edges = rings.flatMap((ring) => ring.map((a, i) => [a, ring[(i + 1) % ring.length]!] as const));
    const ys = edges.flatMap(([[, y]]) => y);
    const top = Math.max(0, Math.floor(Math.min(...ys)));
    const bottom = Math.min(this.height - 1, Math.ceil(Math.max(...ys)));
    for (let row = top; row <= bottom; row++) {
      const y = row + 0.5;
      const crossings = edges
        .filter(([[, ay], [, by]]) => ay <= y !== by <= y)
        .map(([[ax, ay], [bx, by]]) => ({
          x: ax + ((y - ay) / (by - ay)) * (bx - ax),
          way: by > ay ? 1 : -1,
        }))
        .sort((a, b) => a.x - b.x);
      let winding = 0;
      crossings.forEach(({ x, way }, i) => {
        winding += way;
        const next = crossings[i + 1];
        if (winding !== 0 && next)
          for (
            let column = Math.max(0, Math.ceil(x - 0.5));
            column + 0.5 <= Math.min(this.width, next.x);
            column++
          )
            this.dark[row * this.width + column] = 1;
      });
    }
  }

  stroke([x1, y1]: Point, [x2, y2]: Point, width: number): void {
    const length = Math.hypot(x2 - x1, y2 - y1);
    if (length === 0) return;
    const [dx, dy] = [((y2 - y1) / length) * (width / 2), (-(x2 - x1) / length) * (width / 2)];
    this.fill([
      [
        [x1 + dx, y1 + dy],
        [x2 + dx, y2 + dy],
        [x2 - dx, y2 - dy],
        [x1 - dx, y1 - dy],
      ],
    ]);
  }
}
