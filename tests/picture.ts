import { writeFileSync } from 'node:fs';
import { demoPicture } from '../src/commands/demopicture.js';

/** The camera has taken another picture. */
export const newPicture = (file: string): void => writeFileSync(file, demoPicture());
