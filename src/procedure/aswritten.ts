/** The data as it was written: a formula or text with formulas stands for its text, the place in the file for nothing. */
export function asWritten(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(asWritten);
  if (value === null || typeof value !== 'object') return value ?? null;
  const { text } = value as { text?: unknown };
  if (typeof text === 'string' && ('pieces' in value || 'run' in value)) return text;
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, inner]) =>
      key === 'place' || inner === undefined || typeof inner === 'function' ? [] : [[key, asWritten(inner)]],
    ),
  );
}
