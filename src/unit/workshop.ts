/** What the build room needs to know of the workshop: people and house rules. Read from shared/people.yaml and shared/workshop.yaml. */
import type { LimitsFile } from '../measure/limits.js';

/** 0 inducted, 1 observed, 2 supervised, 3 alone, 4 may release, 5 may assess. */
export type Level = 0 | 1 | 2 | 3 | 4 | 5;

export interface Person {
  readonly id: string;
  readonly initials: string;
  readonly name: string;
  /** Level per stage id; `all` where a stage is not named. */
  readonly levels: Readonly<Record<string, Level>>;
  readonly validUntil?: string;
  /** scrypt hash, `salt:hash` in hex; absent where no PIN is wanted. */
  readonly pin?: string;
  readonly language?: string;
}

export interface WorkshopRules {
  readonly name: string;
  readonly people: readonly Person[];
  /** Checks a PIN against a person's hash; comes in from outside so that this room needs no key derivation of its own. */
  readonly pinMatches: (person: Person, pin: string) => boolean;
  readonly limits: LimitsFile;
  /** simple acceptance, or guarded by w = factor x U. */
  readonly decisionRule: { readonly kind: 'simple' } | { readonly kind: 'guarded'; readonly factor: number };
  readonly units: 'mm' | 'inch';
  /** One-person workshop: the same person may release after this many minutes, with evidence. Absent: never. */
  readonly soloRelease?: { readonly minutes: number; readonly evidence: boolean };
  /** Minutes without a key until the bench is handed back to nobody. */
  readonly idleMinutes: number;
  readonly openingTriangle: 'apex-at-hinge' | 'apex-at-handle';
}
