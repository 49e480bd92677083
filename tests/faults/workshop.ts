/** A fresh workshop in a folder that is there already (a volume). */
import { cpSync, rmSync } from 'node:fs';
import { freshWorkshop } from '../bench/terminal.js';

export function fillWorkshop(folder: string): void {
  rmSync(`${folder}/logs`, { recursive: true, force: true });
  const fresh = freshWorkshop();
  cpSync(fresh.folder, folder, { recursive: true });
  fresh.remove();
}
