/**
 * Gauge repeatability and reproducibility: how much of what is seen comes from measuring, and how much from the parts. Crossed: each
 * person measures each part as often.
 */
import { mean, spread } from '../measure/stats.js';
import { fTail } from './distributions.js';
import { d2, d2Star } from './factors.js';

/** `[part][person][trial]`. At least two of each; for repeatability two trials. */
export type Crossed = readonly (readonly (readonly number[])[])[];

interface Component {
  readonly variance: number;
  readonly sd: number;
  /** Per cent of the total variance. */
  readonly contribution: number;
  /** Per cent of the total standard deviation. */
  readonly studyVariation: number;
}

export interface GaugeBlock {
  readonly repeatability: Component;
  readonly reproducibility: Component;
  readonly grr: Component;
  readonly part: Component;
  readonly total: Component;
  readonly ndc: Distinct;
}

/** How many kinds of part the measuring can tell apart: 1.41 times the parts' deviation over that of the measuring. */
interface Distinct {
  /** null where measuring does not scatter at all. */
  readonly value: number | null;
  readonly truncated: number | null;
}

interface Row {
  readonly ss: number;
  readonly df: number;
  readonly ms: number;
}

interface Anova {
  readonly part: Row;
  readonly person: Row;
  readonly interaction: Row;
  readonly repeatability: Row;
}

export interface GaugeStudy {
  readonly anova: Anova;
  /** F is null where repeats do not scatter at all. */
  readonly interaction: { readonly F: number | null; readonly p: number };
  readonly pooled: GaugeBlock;
  readonly unpooled: GaugeBlock;
  readonly used: 'pooled' | 'unpooled';
  /** By ranges, as it is done with pencil and paper; without the interaction. */
  readonly byRanges: GaugeBlock;
}

/** Above this p the interaction is taken for chance, and goes into repeatability. */
const POOLED_ABOVE = 0.25;

export function gaugeStudy(readings: Crossed): GaugeStudy {
  const [parts, people, trials] = [readings.length, readings[0]!.length, readings[0]![0]!.length];
  const anova = anovaOf(readings);
  const { part, person, interaction, repeatability } = anova;
  const F = repeatability.ms > 0 ? interaction.ms / repeatability.ms : null;
  const p = F === null ? (interaction.ms > 0 ? 0 : 1) : fTail(F, interaction.df, repeatability.df);
  const error = rowOf(interaction.ss + repeatability.ss, interaction.df + repeatability.df);
  const pooled = blockOf({
    repeatability: error.ms,
    reproducibility: above(person.ms - error.ms, parts * trials),
    part: above(part.ms - error.ms, people * trials),
  });
  const unpooled = blockOf({
    repeatability: repeatability.ms,
    reproducibility:
      above(person.ms - interaction.ms, parts * trials) + above(interaction.ms - repeatability.ms, trials),
    part: above(part.ms - interaction.ms, people * trials),
  });
  return {
    anova,
    interaction: { F, p },
    pooled,
    unpooled,
    used: p > POOLED_ABOVE ? 'pooled' : 'unpooled',
    byRanges: rangeBlock(readings),
  };
}

/** A variance that comes out below zero is zero. */
const above = (difference: number, over: number): number => Math.max(0, difference / over);

function anovaOf(readings: Crossed): Anova {
  const [parts, people, trials] = [readings.length, readings[0]!.length, readings[0]![0]!.length];
  const ofPart = readings.map((part) => mean(part.flat()));
  const ofPerson = readings[0]!.map((_, k) => mean(readings.flatMap((part) => part[k]!)));
  const grand = mean(ofPart);
  const squares = (values: readonly number[]) => values.reduce((sum, value) => sum + (value - grand) ** 2, 0);
  const part = people * trials * squares(ofPart);
  const person = parts * trials * squares(ofPerson);
  let interaction = 0;
  let repeatability = 0;
  for (const [i, row] of readings.entries())
    for (const [k, cell] of row.entries()) {
      const of = mean(cell);
      interaction += trials * (of - ofPart[i]! - ofPerson[k]! + grand) ** 2;
      for (const value of cell) repeatability += (value - of) ** 2;
    }
  return {
    part: rowOf(part, parts - 1),
    person: rowOf(person, people - 1),
    interaction: rowOf(interaction, (parts - 1) * (people - 1)),
    repeatability: rowOf(repeatability, parts * people * (trials - 1)),
  };
}

const rowOf = (ss: number, df: number): Row => ({ ss, df, ms: ss / df });

/** Mean ranges over the factor that fits how many there were. */
function rangeBlock(readings: Crossed): GaugeBlock {
  const [parts, people, trials] = [readings.length, readings[0]!.length, readings[0]![0]!.length];
  const cells = readings.flatMap((part) => part.map(spread));
  const repeatability = mean(cells) / (parts * people > 15 ? d2(trials) : d2Star(parts * people, trials));
  const between = spread(readings[0]!.map((_, k) => mean(readings.flatMap((part) => part[k]!))));
  const reproducibility = Math.sqrt(
    Math.max(0, (between / d2Star(1, people)) ** 2 - repeatability ** 2 / (parts * trials)),
  );
  const part = spread(readings.map((row) => mean(row.flat()))) / d2Star(1, parts);
  return blockOf({
    repeatability: repeatability ** 2,
    reproducibility: reproducibility ** 2,
    part: part ** 2,
  });
}

function blockOf(variances: {
  readonly repeatability: number;
  readonly reproducibility: number;
  readonly part: number;
}): GaugeBlock {
  const grr = variances.repeatability + variances.reproducibility;
  const total = grr + variances.part;
  const component = (variance: number): Component => ({
    variance,
    sd: Math.sqrt(variance),
    contribution: total > 0 ? (100 * variance) / total : 0,
    studyVariation: total > 0 ? 100 * Math.sqrt(variance / total) : 0,
  });
  const ndc = grr > 0 ? 1.41 * Math.sqrt(variances.part / grr) : null;
  return {
    repeatability: component(variances.repeatability),
    reproducibility: component(variances.reproducibility),
    grr: component(grr),
    part: component(variances.part),
    total: component(total),
    ndc: { value: ndc, truncated: ndc === null ? null : Math.floor(ndc) },
  };
}
