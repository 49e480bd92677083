/** Names that formulas of a profile set know, and those that it must give, as tables for its manual. */
import type { Names } from '../src/base/formula.js';
import { GIVEN, GIVEN_LATE, NEEDED, NEEDED_BOXES, SCOPES } from '../src/window/setformulas.js';

/** Text by list name. */
export function nameLists(): Record<string, string> {
  return {
    sizes: table(
      ['Under `sizes`', 'Must be there'],
      SCOPES.map((scope) => [`\`${scope}\``, code(NEEDED[scope])]),
    ),
    boxes: table(
      ['Under `boxes`', 'Must be there'],
      Object.entries(NEEDED_BOXES).map(([scope, boxes]) => [`\`${scope}\``, code(boxes)]),
    ),
    names: table(
      ['In formulas of', 'Always', 'Late'],
      SCOPES.map((scope) => [`\`${scope}\``, code(dotted(GIVEN[scope])), code(dotted(GIVEN_LATE[scope]))]),
    ),
  };
}

const dotted = (names: Names): string[] =>
  Object.entries(names).flatMap(([name, inner]) =>
    typeof inner === 'string' ? [name] : dotted(inner).map((field) => `${name}.${field}`),
  );
const code = (names: readonly string[]): string => names.map((name) => `\`${name}\``).join(', ') || 'none';
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
