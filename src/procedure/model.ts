/** A parsed procedure: texts split into pieces, formulas compiled and type-checked, places kept for lint. */
import type { Formula } from '../base/formula.js';
import type { Place } from '../base/problem.js';
import type { FigureUnit, InstrumentKind, Quantity } from '../measure/types.js';
import type { Spot } from '../window/types.js';
import type { Phrases } from './phrases.js';
import type { Rhythm } from './rhythm.js';
import type { Each, Hazard } from './schema.js';
import type { Template } from './template.js';
import type { CheckKind } from './types.js';

interface Choice {
  readonly id: string;
  readonly text: Template;
  readonly pass: boolean;
}

interface CheckPoint {
  readonly id: string;
  readonly text: Template;
  readonly expect?: Formula;
  readonly spot?: Spot;
  readonly limits?: readonly string[];
  readonly explains?: Template;
}

export interface Check {
  readonly id: string;
  readonly kind: CheckKind;
  readonly ask: Template;
  readonly how?: Template;
  readonly when?: Formula;
  readonly rhythm: Rhythm;
  readonly nth?: number;
  readonly holds?: Formula;
  readonly expect?: Formula;
  readonly nominal?: { readonly w: Formula; readonly h: Formula };
  readonly plausible?: Formula;
  readonly size?: Formula;
  readonly unit?: FigureUnit;
  readonly quantity?: Quantity;
  readonly points?: readonly CheckPoint[];
  readonly pairs?: readonly (readonly [string, string])[];
  readonly limits: readonly string[];
  readonly against: 'deviation' | 'value';
  readonly choices?: readonly Choice[];
  readonly instruments: readonly InstrumentKind[];
  readonly rests: readonly string[];
  readonly spot?: Spot;
  readonly lot?: string;
  readonly accepts?: boolean;
  readonly serial?: boolean;
  readonly dated?: boolean;
  readonly evidence: boolean;
  readonly safety: boolean;
  /** Asked by itself, never together with its neighbours. */
  readonly alone: boolean;
  readonly explains?: Template;
  readonly place: Place;
}

export interface TimerRule {
  readonly features: readonly string[];
  readonly minutes: Formula;
}

interface Question {
  readonly ask: Template;
  readonly answers: readonly Template[];
  /** 0-based index. */
  readonly right: number;
}

export interface Step {
  readonly id: string;
  readonly stage: string;
  readonly each: Each;
  readonly when?: Formula;
  readonly title: Template;
  readonly do: readonly Template[];
  readonly why: Template;
  readonly watch: Template;
  readonly hazards: readonly Hazard[];
  readonly caution?: Template;
  readonly tools: readonly Template[];
  readonly spot: Spot;
  readonly makes: readonly string[];
  readonly marks: readonly string[];
  readonly list: readonly string[];
  readonly rests: readonly string[];
  readonly hold?: string;
  readonly checks: readonly Check[];
  readonly leastSeconds?: number;
  readonly notBefore?: TimerRule;
  readonly notAfter?: TimerRule;
  readonly setup?: string;
  readonly question?: Question;
  readonly place: Place;
}

export interface Stage {
  readonly id: string;
  readonly title: string;
  readonly branch: string;
  readonly after: readonly string[];
  readonly steps: readonly Step[];
  readonly place: Place;
}

export interface Hold {
  readonly id: string;
  readonly title: string;
  readonly notSamePerson: boolean;
  readonly evidence: boolean;
  readonly release: 'person' | 'checks';
  readonly rhythm: Rhythm;
  readonly place: Place;
}

export interface Procedure {
  readonly file: string;
  readonly name: string;
  readonly version: string;
  readonly title: string;
  readonly language: string;
  /** Of a translation: what it calls what the program says. */
  readonly phrases?: Phrases;
  readonly deferral: Template;
  /** By feature id. */
  readonly features: ReadonlyMap<string, { readonly title: string; readonly place: Place }>;
  readonly holds: ReadonlyMap<string, Hold>;
  readonly stages: readonly Stage[];
}

/** A step that rests on this rests on every feature made before it. */
export const EVERYTHING = 'everything';

export const stepsOf = (procedure: Procedure): readonly Step[] =>
  procedure.stages.flatMap((stage) => stage.steps);
