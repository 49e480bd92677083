/** Which keys a check of each kind needs and takes. */
import type { Place, Problem } from '../ground/problem.js';
import { raise } from './messages.js';
import type { CheckFile } from './schema.js';

type Key = 'expect' | 'nominal' | 'plausible' | 'unit' | 'limits' | 'choices' | 'lot' | 'against' | 'size';
const KEYS: readonly Key[] = [
  'expect',
  'nominal',
  'plausible',
  'unit',
  'limits',
  'choices',
  'lot',
  'against',
  'size',
];

const RULES: Record<CheckFile['kind'], { needs: readonly Key[]; takes: readonly Key[] }> = {
  tick: { needs: [], takes: [] },
  'go-no-go': { needs: [], takes: [] },
  number: { needs: ['unit'], takes: ['expect', 'plausible', 'limits', 'against', 'size'] },
  square: { needs: ['nominal'], takes: ['limits', 'plausible'] },
  count: { needs: ['expect'], takes: [] },
  choice: { needs: ['choices'], takes: [] },
  text: { needs: [], takes: ['lot'] },
};

export function checkKeys(check: CheckFile, at: (key: string) => Place): Problem[] {
  const { needs, takes } = RULES[check.kind];
  const has = (key: Key) => (key === 'limits' ? check.limits.length > 0 : check[key] !== undefined);
  const found: Problem[] = [];
  for (const key of needs)
    if (!has(key))
      found.push(
        raise('procedure.check-keys', `Check "${check.id}" of kind ${check.kind} needs "${key}".`, at(key)),
      );
  for (const key of KEYS)
    if (has(key) && !needs.includes(key) && !takes.includes(key))
      found.push(
        raise(
          'procedure.check-keys',
          `Check "${check.id}" of kind ${check.kind} does not take "${key}".`,
          at(key),
        ),
      );
  if (check.kind === 'number' && check.against === 'deviation' && check.expect === undefined)
    found.push(
      raise(
        'procedure.check-keys',
        `Check "${check.id}" is held against a deviation and needs "expect".`,
        at('against'),
      ),
    );
  if (check.choices && !check.choices.some((choice) => choice.pass))
    found.push(
      raise('procedure.check-keys', `Check "${check.id}": none of its choices passes.`, at('choices')),
    );
  return found;
}
