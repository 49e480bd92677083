/** Languages besides English that the program speaks. Whoever adds one is told by the compiler what it lacks. */

/** BCP 47. */
export const LANGUAGES = ['de'] as const;
export type Language = (typeof LANGUAGES)[number];

export const isSpoken = (language: string | undefined): language is Language =>
  (LANGUAGES as readonly (string | undefined)[]).includes(language);
