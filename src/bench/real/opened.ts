/** A unit's first event, and the texts that it freezes. */
import type { EventBody } from '../../build/events.js';
import { replacedBy } from '../../build/replacement.js';
import { setOutJson } from '../../window/setoutjson.js';
import type { Plan } from './plan.js';

declare const PINCHROD_VERSION: string;

/** Texts by kind: the workshop files as they were, and the set-out that followed from them. */
export function frozenTexts({ from, setOut }: Plan): Readonly<Record<string, string>> {
  return { ...from.texts, setout: `${JSON.stringify(setOutJson([setOut]))}\n` };
}

/** `sources` are the hashes of those texts, as the store gave them. */
export function openedBody({ unit, from }: Plan, sources: Readonly<Record<string, string>>): EventBody {
  const again = from.job.units.some(({ id }) => id === unit.id) ? undefined : replacedBy(unit.id);
  return {
    kind: 'opened',
    unit: unit.id,
    job: unit.job,
    sources: { ...sources },
    procedure: { name: from.procedure.name, version: from.procedure.version },
    profileSet: from.set.name,
    program: typeof PINCHROD_VERSION === 'undefined' ? 'source' : PINCHROD_VERSION,
    ...(again ? { replaces: again.replaces } : {}),
  };
}
