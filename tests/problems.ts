/** A problem with words of its own, where a test needs some problem. */
import type { Problem } from '../src/base/problem.js';
import { quoted } from '../src/base/words.js';

export const someProblem = (id: string, text: string, todo: string): Problem => ({
  id,
  text,
  todo,
  said: quoted(id, text),
  wayOut: quoted(`${id}.todo`, todo),
});
