/** What this room uses of the font library, which ships no types. */
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
