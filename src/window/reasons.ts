/** Why a mark is not where its rule put it, in one line for the person at the bench. */
import { mmText } from '../ground/formula.js';
import type { PlacedMark, PlacedRow } from './clash/line.js';
import type { Clearances } from './clash/rules.js';
import type { Row } from './features.js';
import type { DraftPart } from './parts.js';

interface Other {
  readonly row: Row;
  readonly mark: PlacedMark;
}

/** "moved 20 up: gearbox centre at 544.5", for a mark that was moved or is of a row with more than its rule counts. */
export function reasonOf(
  placed: PlacedRow,
  mark: PlacedMark,
  all: readonly Other[],
  clearances: Clearances,
  part: DraftPart,
  title: (kind: string) => string,
): string {
  const { row, added } = placed;
  const shift = mark.at - mark.nominal;
  const parts: string[] = [];
  if (added > 0)
    parts.push(`${added} more than the pitch asks, because moving alone could not keep every rule`);
  if (Math.abs(shift) > 1e-9) {
    const way = part.axis === 'x' ? (shift > 0 ? 'right' : 'left') : shift > 0 ? 'up' : 'down';
    parts.push(`moved ${mmText(Math.abs(shift))} ${way}: ${cause()}`);
  }
  return parts.join('; ');

  function cause(): string {
    const here = { kind: row.kind, face: row.face, half: mark.half };
    const meets = (other: Other, at: number): number =>
      clearances.apart(here, { kind: other.row.kind, face: other.row.face, half: other.mark.half }) -
      Math.abs(at - mark.nominal);
    let worst: { text: string; by: number } | undefined;
    for (const other of all) {
      if (other.mark === mark) continue;
      for (const at of [other.mark.at, other.mark.nominal]) {
        const by = meets(other, at);
        if (by > 1e-7 && (!worst || by > worst.by + 1e-9))
          worst = { by, text: `${title(other.row.kind)} at ${mmText(at - part.origin)}` };
      }
    }
    if (worst) return worst.text;
    const [low, high] = [mark.nominal - mark.half, mark.nominal + mark.half];
    const isOnPart = low >= part.origin - 1e-7 && high <= part.origin + part.length + 1e-7;
    if (isOnPart && row.layout.is === 'spaced')
      return `keeps the pitch of at most ${mmText(row.layout.pitch)}`;
    return 'kept on the part and in its range';
  }
}
