/** A name by which files refer to one another: letters, digits, point, dash, underscore, at most 60 of them. */
export const NAME = /^[A-Za-z0-9][A-Za-z0-9._-]*$/;
export const LONGEST_NAME = 60;

/** Two points would be a way out of a folder. */
export const leadsAway = (text: string): boolean => text.includes('..');

export const isName = (text: string): boolean =>
  text.length <= LONGEST_NAME && NAME.test(text) && !leadsAway(text);
