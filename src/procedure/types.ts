/** A route: the steps one unit needs, with its numbers filled in. Screens walk it and the unit room judges by it. */
import type { FigureUnit, InstrumentKind, Quantity } from '../measure/types.js';
import type { Spot } from '../window/types.js';
import type { Rhythm } from './rhythm.js';

export type CheckKind =
  | 'tick'
  | 'go-no-go'
  | 'number'
  | 'square'
  | 'points'
  | 'count'
  | 'choice'
  | 'text'
  | 'computed';

export interface RouteCheck {
  /** `sash.square@L2/diagonals`: step id, "/", check id. */
  readonly id: string;
  readonly kind: CheckKind;
  /** The question, filled with this unit's numbers. */
  readonly ask: string;
  /** How often it is due; absent: on each unit. */
  readonly rhythm?: Rhythm;
  /** Of rhythm nth: on how many units it is asked once. */
  readonly nth?: number;
  /** How to measure it, if not obvious. */
  readonly how?: string;
  /** number: the expected value. count: the count that passes. */
  readonly expect?: number;
  /** square: nominal outer sizes. */
  readonly nominal?: { readonly w: number; readonly h: number };
  /** number: distance from `expect` beyond which a reading is queried as a likely misread. */
  readonly plausible?: number;
  /** number: size that selects the limit's band, if not `expect` (the bow of a member of this length). */
  readonly size?: number;
  readonly unit?: FigureUnit;
  /** number, square, points: what is measured. Absent: no instrument is needed. */
  readonly quantity?: Quantity;
  /** points: the readings taken, in order; judged each and against one another. */
  readonly points?: readonly {
    readonly id: string;
    readonly text: string;
    readonly expect?: number;
    readonly spot?: Spot;
    /** Limits of this reading alone. */
    readonly limits?: readonly string[];
    readonly explains?: string;
  }[];
  /** points: those that lie opposite each other. */
  readonly pairs?: readonly (readonly [string, string])[];
  /** Ids in limits.yaml. */
  readonly limits: readonly string[];
  /** Whether limits apply to value − expect or to the value itself (gaps, steps, forces). */
  readonly against: 'deviation' | 'value';
  readonly choices?: readonly { readonly id: string; readonly text: string; readonly pass: boolean }[];
  /** Kinds of instrument it must be one of; empty: any that measures the quantity. */
  readonly instruments: readonly InstrumentKind[];
  /** Features this check rests on in addition to its step's. */
  readonly rests: readonly string[];
  readonly spot?: Spot;
  /** text: the entry is a lot number of this material (sealant, adhesive, glass, profile, hardware, gasket). */
  readonly lot?: string;
  /** The lot is accepted here, at goods-in; elsewhere only an accepted one is taken. */
  readonly accepts?: boolean;
  /** Each piece has a number of its own, used once (a pane of glass). */
  readonly serial?: boolean;
  /** The material goes off: its lot is taken only with its date. */
  readonly dated?: boolean;
  /** Requires a picture or file. */
  readonly evidence: boolean;
  /** Safety glass, escape, restrictor: never conceded. */
  readonly safety: boolean;
  /** Asked by itself, never together with its neighbours. */
  readonly alone?: boolean;
  /** Name of a number the program can explain ("why"): `glass.L2.w`. */
  readonly explains?: string;
}

export interface RouteStep {
  /** `sash.square@L2`, or `frame.square` without an item. */
  readonly id: string;
  /** The step in the procedure: `sash.square`. */
  readonly base: string;
  /** L2 or D1, if the step is done per light or divider. */
  readonly item?: string;
  readonly stage: string;
  readonly title: string;
  readonly do: readonly string[];
  /** What the formulas gave in its sentences and questions. */
  readonly figures: readonly string[];
  readonly why: string;
  readonly watch: string;
  readonly caution?: string;
  readonly tools: readonly string[];
  readonly spot: Spot;
  /** Features, qualified by item: `sash.geometry@L2`. No other step makes them. */
  readonly makes: readonly string[];
  /** Marks of the set-out that it makes: `frame/drain-inner`. */
  readonly marks?: readonly string[];
  /** What it makes of the unit's lists: `cutting/frame`, `glass`. */
  readonly list?: readonly string[];
  readonly rests: readonly string[];
  readonly checks: readonly RouteCheck[];
  /** Once its checks pass, the step waits here until an authorised person releases it, where a person does. */
  readonly hold?: {
    readonly id: string;
    readonly title: string;
    readonly notSamePerson: boolean;
    readonly evidence: boolean;
    /** Released by its own checks, without another person; absent: by a named person. */
    readonly release?: 'checks';
    /** How often a person releases it; absent: on each unit. */
    readonly rhythm?: Rhythm;
  };
  /** Shortest plausible time for doing it, seconds. */
  readonly leastSeconds?: number;
  /** Earliest start after the feature was made (cure), minutes. */
  readonly notBefore?: { readonly feature: string; readonly minutes: number };
  /** Latest finish after the feature was begun (open time), minutes. */
  readonly notAfter?: { readonly feature: string; readonly minutes: number };
  /** Set-up that must be valid: `saw`, `punch`. */
  readonly setup?: string;
  /** A question in practice mode, before a hold. */
  readonly question?: { readonly ask: string; readonly answers: readonly string[]; readonly right: number };
}

export interface RouteStage {
  readonly id: string;
  readonly title: string;
  /** Branch of work: frame, sash, glass, all. */
  readonly branch: string;
  /** Stages of this route that must be done first (reduced to those the unit has). */
  readonly after: readonly string[];
  readonly steps: readonly string[];
}

export interface Route {
  readonly procedure: { readonly name: string; readonly version: string; readonly title: string };
  readonly unit: string;
  /** Revision of the order: what is asked once for the order is asked again for another. */
  readonly order?: string;
  readonly stages: readonly RouteStage[];
  readonly steps: readonly RouteStep[];
}
