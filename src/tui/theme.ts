/** How the screen is coloured and which characters it may use. No colour carries a meaning alone: shape and word go with it. */
import type { Tone } from './state.js';
import { SHAPES } from './words.js';

export interface Theme {
  readonly colours: 'dark' | 'light' | 'none';
  /** Only characters of ASCII. */
  readonly ascii: boolean;
}

export interface ToneProps {
  readonly color?: string;
  readonly bold?: boolean;
  readonly inverse?: boolean;
}

export function toneProps(tone: Tone, { colours }: Theme): ToneProps {
  switch (tone) {
    case 'plain':
    case 'quiet':
      return {};
    case 'strong':
      return { bold: true };
    case 'mark':
      return { inverse: true };
    case 'good':
      return { bold: true, ...paint(colours, 'greenBright', 'green') };
    case 'bad':
      return { bold: true, ...paint(colours, 'redBright', 'red') };
    case 'ask':
      return { bold: true, ...paint(colours, 'yellowBright', 'magenta') };
  }
}

/** A shape for a sign: finer where the terminal has the characters. */
export const shape = (sign: string, theme: Theme): string => (theme.ascii ? sign : (SHAPES[sign] ?? sign));

/** What the environment says: NO_COLOR, COLORFGBG, the locale, and PINCHROD_THEME / PINCHROD_ASCII where they are set. */
export function themeFrom(env: Readonly<Record<string, string | undefined>>, platform: string): Theme {
  return { colours: coloursFrom(env), ascii: asciiFrom(env, platform) };
}

function coloursFrom(env: Readonly<Record<string, string | undefined>>): Theme['colours'] {
  if ((env.NO_COLOR ?? '') !== '' || env.TERM === 'dumb') return 'none';
  const asked = env.PINCHROD_THEME;
  if (asked === 'dark' || asked === 'light' || asked === 'none') return asked;
  // COLORFGBG is "foreground;background": 7 and 9 to 15 are light backgrounds.
  const background = Number(env.COLORFGBG?.split(';').at(-1) ?? '0');
  return background === 7 || background > 8 ? 'light' : 'dark';
}

function asciiFrom(env: Readonly<Record<string, string | undefined>>, platform: string): boolean {
  if (env.PINCHROD_ASCII !== undefined) return env.PINCHROD_ASCII !== '0' && env.PINCHROD_ASCII !== '';
  if (platform === 'win32') return env.WT_SESSION === undefined;
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG || '';
  // A locale that says nothing is left at UTF-8, which is what terminals of today are; C and POSIX are taken at their word.
  return locale !== '' && !/utf-?8/i.test(locale);
}

function paint(colours: Theme['colours'], dark: string, light: string): { readonly color?: string } {
  if (colours === 'none') return {};
  return { color: colours === 'dark' ? dark : light };
}
