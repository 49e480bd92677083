/** Refusals of the program itself, before or behind a verb. Loaded only where there is one. */

import { nearest } from '../base/knownkeys.js';
import { problemFactory } from '../base/problem.js';
import { COMMAND_MESSAGES } from './catalogue.js';

const raise = problemFactory(COMMAND_MESSAGES);

type MainRefusal =
  | 'main.usage'
  | 'main.usage/near'
  | 'main.usage/workshop'
  | 'main.resource'
  | 'main.unexpected';

export const raiseMain = (
  id: MainRefusal,
  args: { readonly verb?: string; readonly fault?: string; readonly near?: string } = {},
) => raise(id as 'main.usage', { verb: '', ...args });

/** The verb that was probably meant. */
export const nearestVerb = (verb: string, known: readonly string[]): string | undefined =>
  nearest(verb, known);
