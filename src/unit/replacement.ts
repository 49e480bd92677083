/** Names of units built to replace scrapped ones. */

/** `P02-1` -> `P02-1R1` -> `P02-1R2`. */
export function replacementOf(unit: string): string {
  const again = AGAIN.exec(unit);
  return again ? `${again[1]}R${Number(again[2]) + 1}` : `${unit}R1`;
}

/** The unit that one with this name replaces, and the original listed in the job; undefined for any other name. */
export function replacedBy(unit: string): { readonly replaces: string; readonly listed: string } | undefined {
  const [, listed, count] = AGAIN.exec(unit) ?? [];
  if (listed === undefined || Number(count) < 1) return undefined;
  return { listed, replaces: Number(count) === 1 ? listed : `${listed}R${Number(count) - 1}` };
}

/** A listed unit's id ends in its number. */
const AGAIN = /^(.*-\d+)R(\d+)$/;
