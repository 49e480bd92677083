/**
 * What a procedure, its stages, steps and holds are called in another language, whatever is filled into their titles: lists over many
 * units keep titles as text, and no unit's route is made again to tell them.
 */
import type { Procedure } from './model.js';
import { type Phrases, phrased } from './phrases.js';

/** Plain data, so a store can keep it. */
export interface TitlesTold {
  /** As written, with `{formulas}`: in the procedure's own language, and in the other one. */
  readonly pairs: readonly (readonly [own: string, told: string])[];
  readonly phrases: Phrases;
}

/** @param told the same procedure, translated */
export function titlesTold(own: Procedure, told: Procedure): TitlesTold {
  const steps = new Map(
    told.stages.flatMap((stage) => stage.steps.map((step) => [step.id, step.title.text])),
  );
  const stages = new Map(told.stages.map(({ id, title }) => [id, title]));
  const pairs = new Map<string, string>([[own.title, told.title]]);
  for (const { id, title } of own.stages) pairs.set(title, stages.get(id) ?? title);
  for (const { id, title } of own.stages.flatMap((stage) => stage.steps)) {
    const other = steps.get(id);
    if (other !== undefined && other !== title.text) pairs.set(title.text, other);
  }
  for (const { id, title } of own.holds.values()) {
    const other = told.holds.get(id)?.title;
    if (other !== undefined && other !== title) pairs.set(title, other);
  }
  return { pairs: [...pairs], phrases: told.phrases ?? {} };
}

/** Undefined for what is no title of these procedures. */
export type TitleReader = (title: string) => string | undefined;

/** Of several that fit, the one that says more is meant. */
export function titleReader(all: readonly TitlesTold[]): TitleReader {
  const plain = new Map<string, string>();
  const filled: { readonly reads: RegExp; readonly told: readonly string[]; readonly phrases: Phrases }[] =
    [];
  const pairs = all.flatMap(({ pairs, phrases }) => pairs.map(([own, told]) => ({ own, told, phrases })));
  for (const { own, told, phrases } of pairs.toSorted((a, b) => wordsIn(b.own) - wordsIn(a.own))) {
    const pieces = own.split(FORMULA);
    if (pieces.length === 1) {
      if (!plain.has(own)) plain.set(own, told);
      continue;
    }
    const names = pieces.filter((_, i) => i % 2 === 1);
    const source = pieces.map((piece, i) => {
      if (i % 2 === 0) return escaped(piece);
      const like = OF_ITEM.test(piece) ? '.*?\\d+' : '.+?';
      return names.indexOf(piece) < (i - 1) / 2 ? like : `(?<v${(i - 1) / 2}>${like})`;
    });
    const other = told
      .split(FORMULA)
      .map((piece, i) =>
        i % 2 === 0 ? piece : names.includes(piece) ? `v${names.indexOf(piece)}` : undefined,
      );
    if (other.every((piece) => piece !== undefined))
      filled.push({ reads: new RegExp(`^${source.join('')}$`), told: other, phrases });
  }
  return (title) => {
    const found = plain.get(title);
    if (found !== undefined) return found;
    for (const { reads, told, phrases } of filled) {
      const groups = reads.exec(title)?.groups;
      if (groups)
        return told.map((piece, i) => (i % 2 === 0 ? piece : phrased(groups[piece]!, phrases))).join('');
    }
    return undefined;
  };
}

/** Names of lights and dividers end in their number. */
const OF_ITEM = /^(?:light|divider)\./;
const FORMULA = /\{([^{}]+)\}/;
const wordsIn = (text: string): number => text.replace(/\{[^{}]+\}/g, '').length;
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
