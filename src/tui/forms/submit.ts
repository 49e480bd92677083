/** What a form, filled, asks for: the same actions that a script may send. */
import type { Action, BenchAction } from '../../unit/actions.js';
import type { FormScreen } from './fields.js';
import { setupAction } from './setup.js';

export function formAction({ form, given }: FormScreen): BenchAction {
  const pin = given.pin === undefined ? {} : { pin: given.pin };
  const reason = given.reason ?? '';
  switch (form.id) {
    case 'put-right':
      return { do: 'undo', reason };
    case 'rework':
      return { do: 'rework', step: form.step, reason };
    case 'snag':
      return {
        do: 'snag',
        ...(form.step === undefined ? {} : { step: form.step }),
        ...(form.check === undefined ? {} : { check: form.check }),
        severity: given.severity as 'minor' | 'major' | 'critical',
        cause: given.cause ?? 'other',
        text: given.text ?? '',
        park: given.park === 'yes',
        ...touchesOf(given.touches),
        ...(given.containment === undefined ? {} : { containment: given.containment }),
      };
    case 'decide':
      return {
        do: 'decide',
        snag: form.snag,
        disposition: given.disposition as 'rework' | 'repair' | 'concession' | 'scrap' | 'return',
        reason,
        ...(given.limit === undefined ? {} : { limit: given.limit }),
        ...(given.replacement === undefined ? {} : { replacement: given.replacement }),
        ...pin,
      };
    case 'close':
      return { do: 'close', snag: form.snag, note: given.note ?? '' };
    case 'park':
      return { do: 'park', reason };
    case 'note':
      return { do: 'note', text: given.text ?? '', ...(form.step === undefined ? {} : { step: form.step }) };
    case 'override':
      return { do: 'override', problem: form.problem, reason, ...pin };
    case 'setup':
      return setupAction(form.setup, given);
    case 'take-over':
      return { do: 'take-over', reason };
    case 'second':
      return { ...form.action, second: given.second } as Action;
    case 'overdue':
      return { ...form.action, overdueAllowedBy: { person: given.person ?? '', ...pin } } as Action;
    case 'evidence':
      return { ...form.action, evidence: [given.file ?? ''] } as Action;
  }
}

/** `lot:PR-77` and `setup:saw-1`, as the form's choices name them. */
function touchesOf(touches = ''): { readonly lot?: string; readonly setup?: string } {
  const [, what, id = ''] = /^(lot|setup):(.*)$/.exec(touches) ?? [];
  if (what === 'lot') return { lot: id };
  return what === 'setup' ? { setup: id } : {};
}
