/** What is used of libraries that bring no types of their own. */
declare module 'jstat' {
  const jStat: {
    readonly normal: {
      cdf(x: number, mean: number, sd: number): number;
      inv(p: number, mean: number, sd: number): number;
    };
    readonly chisquare: { inv(p: number, dof: number): number };
    readonly beta: { inv(p: number, alpha: number, beta: number): number };
    readonly centralF: { cdf(x: number, above: number, below: number): number };
    gammaln(x: number): number;
    readonly studentt: { inv(p: number, dof: number): number; cdf(x: number, dof: number): number };
  };
  export default { jStat };
}

declare module 'fontkit' {
  export interface PathCommand {
    readonly command: 'moveTo' | 'lineTo' | 'quadraticCurveTo' | 'bezierCurveTo' | 'closePath';
    readonly args: readonly number[];
  }
  export interface Font {
    readonly unitsPerEm: number;
    layout(text: string): {
      readonly glyphs: readonly {
        readonly advanceWidth: number;
        readonly path: { readonly commands: readonly PathCommand[] };
      }[];
    };
  }
  export function create(bytes: Uint8Array): Font;
}

/** Set by the build; absent when run from source. */
declare const PINCHROD_VERSION: string;
