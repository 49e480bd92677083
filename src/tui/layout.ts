/** Sizes of the screen regions. One terminal row stays unused so that nothing ever scrolls. */
export interface Size {
  readonly columns: number;
  readonly rows: number;
}

export interface ScreenLayout {
  readonly width: number;
  readonly height: number;
  readonly header: number;
  readonly body: number;
  readonly notes: number;
  /** Width of the drawing on the work screen; 0 if there is no room for it. */
  readonly drawing: number;
}

export const MIN_SIZE: Size = { columns: 60, rows: 18 };

export function layoutOf({ columns, rows }: Size): ScreenLayout {
  const width = Math.max(20, columns);
  const height = Math.max(8, rows - 1);
  const header = 3;
  const notes = 2;
  const drawing = width < 72 ? 0 : Math.min(48, Math.floor(width * 0.34));
  // The 3 is the rule, the entry line and the footer.
  return { width, height, header, notes, drawing, body: Math.max(1, height - header - notes - 3) };
}
