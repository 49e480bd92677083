/** Proves every set-up that is not valid with first-offs that pass: for demonstrations, pictures and tests. */
import { passingValue } from '../../build/driver.js';
import { ALONE, isValid, levelOf } from '../../build/people.js';
import { isOverdue } from '../../measure/instruments.js';
import type { RealPorts } from '../ports-real.js';

/** A sentence for each set-up that was proven, or why it could not be. */
export function proveSetups(ports: RealPorts): { readonly ok: boolean; readonly text: string }[] {
  const standings = ports.setups();
  if (!standings?.ok) return [];
  return standings.value
    .filter(({ valid }) => !valid)
    .map(({ rule }) => {
      const { now, rules, instruments, bench } = ports.world();
      const stage = rule.stage ?? 'all';
      const person = rules.people
        .filter((each) => levelOf(each, stage) >= ALONE && isValid(each, now))
        .toSorted((a, b) => levelOf(a, stage) - levelOf(b, stage))[0];
      const inHand: Record<string, string> = {};
      for (const check of rule.checks) {
        const tool = instruments.find(
          (each) => check.instruments.includes(each.kind) && !isOverdue(each, now),
        );
        if (tool) inHand[tool.kind] = tool.id;
      }
      const around = { now, bench, person: person?.id, inHand, workshop: rules, instruments };
      const values = Object.fromEntries(
        rule.checks.map((check) => [check.id, String(passingValue(check, around, {}))] as const),
      );
      const acted = ports.act({ do: 'first-off', setup: rule.id, values }, around);
      const event = acted.kind === 'done' ? acted.events[0] : undefined;
      const ok = event?.kind === 'first-off' && event.passed;
      if (ok) return { ok, text: `${rule.title}: first-off passed, by ${person?.name}.` };
      const why = 'problem' in acted ? acted.problem.text : acted.kind === 'ask' ? acted.question.text : '';
      return { ok, text: `${rule.title}: the first-off did not pass. ${why}` };
    });
}
