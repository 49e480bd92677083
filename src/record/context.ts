/** What a record needs beside the unit's state: names, instruments, and when and by what the document is made. */

import type { Instrument } from '../measure/types.js';
import type { Person } from '../unit/workshop.js';

export interface RecordContext {
  /** The workshop's name, as it heads the document. */
  readonly workshop: string;
  readonly customer: string;
  readonly people: readonly Person[];
  readonly instruments: readonly Instrument[];
  /** UTC ISO 8601: when the document is made. */
  readonly at: string;
  /** "pinchrod 0.1.0" */
  readonly program: string;
  /** People by their initials only, in every text. */
  readonly initials: boolean;
  readonly triangle: 'apex-at-hinge' | 'apex-at-handle';
  /** What whoever read the files noticed and a reader must know: said among the remarks. */
  readonly remarks?: readonly string[];
}
