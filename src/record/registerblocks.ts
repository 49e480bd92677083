/** How far the registers had come when a document was made: what a later copy of the workshop is held against. */
import { sanitize } from '../base/text.js';
import type { Block, Cell } from './blocks.js';
import type { RecordView } from './schema.js';

const WHAT_FOR =
  'Each bench enters how far every journal has come. A workshop whose registers do not have these entries is another, or an older copy, than the one that made this document. The fingerprint is the one that the workshop has on paper.';

/** Nothing where the workshop has no register. */
export function registerBlocks({ registers }: RecordView['made']): Block[] {
  if (!registers) return [];
  const { heads, firstKey } = registers;
  const rows: (readonly [string, Cell])[] = [
    ...heads.map(
      ({ bench, n, hash }) =>
        [sanitize(bench), [{ text: `entry ${n}` }, { text: hash, look: 'code' as const }]] as const,
    ),
    ...(firstKey === undefined
      ? []
      : [['Fingerprint of the first key', [{ text: firstKey, look: 'code' as const }]] as const]),
  ];
  return [
    { kind: 'heading', level: 2, text: 'Registers' },
    { kind: 'facts', caption: 'How far the registers had come', rows },
    { kind: 'text', text: WHAT_FOR, look: 'quiet' },
  ];
}
