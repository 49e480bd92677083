/** Sizes of the screen's regions. One row of the terminal stays free, so that nothing ever scrolls. */
export interface Size {
  readonly columns: number;
  readonly rows: number;
}

export interface ScreenLayout {
  readonly width: number;
  /** Rows drawn in all. */
  readonly height: number;
  readonly header: number;
  readonly body: number;
  readonly notes: number;
  /** Columns of the drawing on the work screen; 0 where there is no room for one. */
  readonly drawing: number;
}

export const MIN_SIZE: Size = { columns: 60, rows: 18 };

export function layoutOf({ columns, rows }: Size): ScreenLayout {
  const width = Math.max(20, columns);
  const height = Math.max(8, rows - 1);
  const header = 3;
  const notes = 2;
  const drawing = width < 72 ? 0 : Math.min(48, Math.floor(width * 0.34));
  // Header, body, rule, notes, entry line, footer.
  return { width, height, header, notes, drawing, body: Math.max(1, height - header - notes - 3) };
}
