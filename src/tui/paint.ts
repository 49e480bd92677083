/**
 * Turns the current screen into the wanted frame by sending only the rows that changed, at absolute positions, so that
 * the old cursor position does not matter and nothing scrolls. A key costs about 300 bytes, not the 3,100 of a whole
 * frame (40 rows).
 */
export interface Painted {
  readonly rows: readonly string[];
  readonly cursor: string;
}

export const NOTHING_PAINTED: Painted = { rows: [], cursor: '' };

export interface CursorPlace {
  readonly x: number;
  readonly y: number;
}

/** The bytes to send, and what is then on the screen. No bytes if nothing changed. */
export function paint(
  before: Painted,
  frame: string,
  cursor: CursorPlace | undefined,
): { readonly bytes: string; readonly painted: Painted } {
  const rows = frame.split('\n');
  let changed = '';
  const count = Math.max(rows.length, before.rows.length);
  for (let row = 0; row < count; row += 1) {
    const wanted = rows[row] ?? '';
    // Reset styles and clear the rest of the row, so that a narrower frame leaves nothing of a wider one.
    if (wanted !== before.rows[row]) changed += `\u001b[${row + 1};1H${wanted}\u001b[0m\u001b[K`;
  }
  const place = cursor ? `\u001b[${cursor.y + 1};${cursor.x + 1}H\u001b[?25h` : '\u001b[?25l';
  const painted = { rows, cursor: place };
  if (changed === '' && place === before.cursor) return { bytes: '', painted };
  // Terminals with synchronised output show the frame at once; others ignore the markers.
  return { bytes: `\u001b[?2026h\u001b[?25l${changed}${place}\u001b[?2026l`, painted };
}

/** Clears the screen for a full repaint, after a resize or when something else wrote to it. */
export const CLEAR = '\u001b[0m\u001b[2J\u001b[H';
