/** A route: the steps that one unit needs, with its numbers in them. What the bench walks and the build room judges. */
import type { InstrumentKind } from '../measure/types.js';
import type { Spot } from '../window/types.js';

export type CheckKind = 'tick' | 'go-no-go' | 'number' | 'square' | 'count' | 'choice' | 'text';

export interface RouteCheck {
  /** `sash.square@L2/diagonals`: step id, "/", check id. */
  readonly id: string;
  readonly kind: CheckKind;
  /** What is asked, filled with this unit's numbers. */
  readonly ask: string;
  /** How to take it, where that is not plain. */
  readonly how?: string;
  /** number: the value expected. count: the count that passes. */
  readonly expect?: number;
  /** square: nominal outer sizes. */
  readonly nominal?: { readonly w: number; readonly h: number };
  /** number: how far from `expect` a reading may lie before it is asked about as a likely misread. */
  readonly plausible?: number;
  /** number: the size that picks a limit's band, where it is not `expect` (the bow of a member of this length). */
  readonly size?: number;
  readonly unit?: 'mm' | 'N' | 'kg' | 'deg' | 'min' | 'C';
  /** Ids of the limits that bind, in limits.yaml. */
  readonly limits: readonly string[];
  /** Whether limits are held against value − expect, or against the value itself (gaps, steps, forces). */
  readonly against: 'deviation' | 'value';
  readonly choices?: readonly { readonly id: string; readonly text: string; readonly pass: boolean }[];
  readonly instruments: readonly InstrumentKind[];
  /** Features this check rests on besides its step's. */
  readonly rests: readonly string[];
  readonly spot?: Spot;
  /** text: what is entered is a lot of this material (sealant, adhesive, glass, profile, hardware, gasket). */
  readonly lot?: string;
  /** A picture or file is asked for. */
  readonly evidence: boolean;
  /** Safety glass, escape, restrictor: no concession ever. */
  readonly safety: boolean;
  /** Number the name of which the bench can explain ("why"): `glass.L2.w`. */
  readonly explains?: string;
}

export interface RouteStep {
  /** `sash.square@L2`; without an item just `frame.square`. */
  readonly id: string;
  /** The step in the procedure: `sash.square`. */
  readonly base: string;
  /** L2 or D1 where the step is done for each light or divider. */
  readonly item?: string;
  readonly stage: string;
  readonly title: string;
  /** Sentences, filled. */
  readonly do: readonly string[];
  readonly why: string;
  readonly watch: string;
  readonly caution?: string;
  readonly tools: readonly string[];
  readonly spot: Spot;
  /** Features, qualified by item: `sash.geometry@L2`. Each is made by this step alone. */
  readonly makes: readonly string[];
  readonly rests: readonly string[];
  readonly checks: readonly RouteCheck[];
  /** The step, once its checks pass, waits here until somebody with the right releases it. */
  readonly hold?: {
    readonly id: string;
    readonly title: string;
    readonly notSamePerson: boolean;
    readonly evidence: boolean;
  };
  /** Least plausible time for doing it, seconds. */
  readonly leastSeconds?: number;
  /** May not start before this long after the feature was made (cure), minutes. */
  readonly notBefore?: { readonly feature: string; readonly minutes: number };
  /** Must be done by this long after the feature was begun (open time), minutes. */
  readonly notAfter?: { readonly feature: string; readonly minutes: number };
  /** Set-up that must be valid: `saw`, `punch`. */
  readonly setup?: string;
  /** A question for the practice walk, before a hold. */
  readonly question?: { readonly ask: string; readonly answers: readonly string[]; readonly right: number };
}

export interface RouteStage {
  readonly id: string;
  readonly title: string;
  /** Branch of work: frame, sash, glass, all. */
  readonly branch: string;
  /** Stages of this route that must be done before (already thinned to those the unit has). */
  readonly after: readonly string[];
  readonly steps: readonly string[];
}

export interface Route {
  readonly procedure: { readonly name: string; readonly version: string; readonly title: string };
  readonly unit: string;
  readonly stages: readonly RouteStage[];
  /** In walking order. */
  readonly steps: readonly RouteStep[];
}
