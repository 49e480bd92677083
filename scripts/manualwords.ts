export type Words = Record<string, [string, string?]>;
export const JOB_KEYS: Words = {};
export const SET_KEYS: Words = {};
