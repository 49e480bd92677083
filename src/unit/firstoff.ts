/** A first-off of a set-up, as the set-ups' journal holds it and units keep it. */
import { checkLine } from './chain.js';
import { eventSchema, type JournalEvent } from './events.js';

export type FirstOff = JournalEvent & { readonly kind: 'first-off' };

/** Its id, as answers and records name it. */
export const firstOffId = ({ setup, n, own }: Pick<FirstOff, 'setup' | 'n' | 'own'>): string =>
  own === undefined ? `${setup}-${n}` : `${setup}-${own}-${n}`;

/** Undefined if the text is no such line. */
export function readFirstOff(text: string): FirstOff | undefined {
  const line = text.includes('"kind":"first-off"') ? checkLine(text) : undefined;
  const read = line?.whole ? eventSchema.safeParse(line.event) : undefined;
  return read?.success && read.data.kind === 'first-off' ? read.data : undefined;
}
