/** Where the settings of a connection are read from. */
import { readFileSync } from 'node:fs';
import { homedir, userInfo } from 'node:os';
import type { Sources } from '../server/settings.js';

export const sources = (): Sources => ({
  env: process.env,
  home: homedir(),
  user: userInfo().username,
  read: (path) => readFileSync(path, 'utf8'),
});
