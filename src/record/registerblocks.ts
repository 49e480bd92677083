/** How far the registers had come when a document was made: what a later copy of the workshop is held against. */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import type { Block, Cell } from './blocks.js';
import type { RecordView } from './schema.js';
import { tellingOf } from './telling.js';

/** Nothing where the workshop has no register. */
export function registerBlocks(made: RecordView['made']): Block[] {
  const { registers } = made;
  if (!registers) return [];
  const { say } = tellingOf(made);
  const { heads, firstKey } = registers;
  const rows: (readonly [Spoken, Cell])[] = [
    ...heads.map(
      ({ bench, n, hash }) =>
        [
          sanitize(bench),
          [{ text: say('doc-register-entry', { n }) }, { text: data(hash), look: 'code' as const }],
        ] as const,
    ),
    ...(firstKey === undefined
      ? []
      : [[say('doc-first-key'), [{ text: data(firstKey), look: 'code' as const }]] as const]),
  ];
  return [
    { kind: 'heading', level: 2, text: say('doc-registers') },
    { kind: 'facts', caption: say('doc-registers-then'), rows },
    { kind: 'text', text: say('doc-registers-say'), look: 'quiet' },
  ];
}
