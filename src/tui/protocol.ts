/** Inputs and outputs of the bench's reducer. */
import type { Problem } from '../base/problem.js';
import type { Acted } from '../session/ports.js';
import type { BenchAction } from '../unit/actions.js';
import type { Key } from './keys/split.js';
import type { CommandId } from './keys/table.js';
import type { BenchState } from './state.js';

export type BenchMessage =
  /** `at`: wall-clock milliseconds, which may jump; compare only with those of other keys. */
  | { readonly kind: 'key'; readonly key: Key; readonly at: number }
  | { readonly kind: 'tick'; readonly at: number }
  | ({ readonly kind: 'result' } & Result);

type Result =
  | { readonly of: 'act'; readonly action: BenchAction; readonly acted: Acted }
  /** `asked`: the shop is asked first, and the unit is opened when it answers. */
  | {
      readonly of: 'open';
      readonly unit: string;
      readonly problem?: Problem;
      readonly asked?: boolean;
    };

export type Effect =
  | { readonly kind: 'act'; readonly action: BenchAction }
  | { readonly kind: 'open'; readonly unit: string }
  | { readonly kind: 'refresh' }
  | { readonly kind: 'close' };

export interface Update {
  readonly state: BenchState;
  readonly effects: readonly Effect[];
  /** A command chosen from a menu, run as if its key had been pressed. */
  readonly command?: CommandId;
}
