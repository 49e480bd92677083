/** placeholder: owned by the measuring room */
export interface LimitsFile {
  readonly limits: readonly unknown[];
}
