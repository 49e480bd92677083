/** A file's name and text, as the pure rooms take it: they never open files themselves. */
export interface SourceText {
  /** As problems name it, relative to the workshop where it can be. */
  readonly file: string;
  readonly text: string;
}
