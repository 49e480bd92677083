/** Words and shapes for standings, so that nothing is told by colour alone. Shapes have a form of their own in ASCII. */
import { STANDING_WORDS } from '../build/standings.js';
import type { CheckState, StepStatus } from '../build/types.js';
import type { Outcome } from '../measure/types.js';
import { sourceText } from '../measure/verdict.js';
import type { Tone } from './state.js';

interface Word {
  /** One character of plain ASCII; `SHAPES` has the finer one. */
  readonly sign: string;
  readonly word: string;
}

export const STANDING = STANDING_WORDS;

export const STATUS: Readonly<Record<StepStatus, Word>> = {
  waiting: { sign: '.', word: 'waits' },
  ready: { sign: 'o', word: 'open' },
  begun: { sign: '>', word: 'begun' },
  failed: { sign: 'X', word: 'failed' },
  held: { sign: '#', word: 'held' },
  done: { sign: 'v', word: 'done' },
  stale: { sign: '@', word: 'to be made again' },
};

/** The shape for a sign where the terminal has more than ASCII. */
export const SHAPES: Readonly<Record<string, string>> = {
  '.': '·',
  X: '✕',
  x: '✕',
  '>': '▶',
  '#': '■',
  H: '■',
  '~': '≈',
  '!': '▲',
  '=': '‖',
  v: '✓',
  '*': '✓',
  '-': '–',
  o: '○',
  '@': '↻',
  '?': '?',
};

export const OUTCOME: Readonly<Record<Outcome, Word & { readonly tone: Tone }>> = {
  pass: { sign: 'v', word: 'PASS', tone: 'good' },
  fail: { sign: 'X', word: 'FAIL', tone: 'bad' },
  'not-proven': { sign: '?', word: 'NOT PROVEN', tone: 'ask' },
};

/** A verdict as the fold or the journal has it. */
export interface Judged {
  readonly outcome: Outcome;
  readonly value?: number | undefined;
  readonly unit?: string | undefined;
  readonly rules: readonly {
    readonly title: string;
    readonly says: string;
    readonly sourceKind: string;
    readonly source: string;
    readonly outcome: Outcome;
  }[];
}

/** `Mitre gap: 0.2 mm, at most 0.3 mm (house rule: …)`: the limit that decided, the figure and the source; the figure alone where no limit bound. */
export function verdictText(verdict: Judged): string {
  const figure = verdict.value === undefined ? '' : `${figureText(verdict.value)} ${verdict.unit ?? 'mm'}`;
  const rules = verdict.rules.filter(({ outcome }) => outcome === verdict.outcome);
  const rule = (rules.length > 0 ? rules : verdict.rules).map(
    (used) => `${used.title}: ${used.says} (${sourceText(used)})`,
  )[0];
  return rule ?? figure;
}

/** A length to the tenth; whole numbers without a point where nothing is lost. */
export function figureText(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return Object.is(rounded, -0) ? '0' : Number.isInteger(rounded * 10) ? rounded.toFixed(1) : String(rounded);
}

/** What was answered, in a few words. */
export function answerText({ answer }: Pick<NonNullable<CheckState['answered']>, 'answer'>): string {
  switch (answer.kind) {
    case 'tick':
      return 'done';
    case 'go-no-go':
      return answer.go ? 'go' : 'no-go';
    case 'number':
      return answer.readings.map(({ value }) => figureText(value)).join(', ');
    case 'square':
      return Object.entries(answer.readings)
        .map(
          ([key, readings]) =>
            `${key.replace('_', '-')} ${readings.map(({ value }) => figureText(value)).join(', ')}`,
        )
        .join('  ');
    case 'count':
      return String(answer.count);
    case 'choice':
      return answer.choice;
    case 'text':
      return answer.text;
  }
}
