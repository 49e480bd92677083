/** How far the registers had come when a document was made: what a later copy of the workshop is held against. */
import { sanitize } from '../base/text.js';
import type { Block, Cell } from './blocks.js';
import type { RecordView } from './schema.js';

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
      : [['Key by which all others count', [{ text: firstKey, look: 'code' as const }]] as const]),
  ];
  return [
    { kind: 'heading', level: 2, text: 'Registers' },
    { kind: 'facts', caption: 'How far the registers had come', rows },
  ];
}
