/** The README and the manual for contributors say what the program does. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keysMarkdown } from '../src/tui/keys/table.js';

const root = join(import.meta.dirname, '..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');

describe('README', () => {
  it('lists the keys as the table has them', () => {
    const between = /<!-- keys -->\n([\s\S]*?)\n<!-- \/keys -->/.exec(readme)?.[1];
    expect(between?.trim()).toBe(keysMarkdown().trim());
  });

  it('names files that are there', () => {
    const targets = [...readme.matchAll(/\]\(([^)#]+)\)/g)].map(([, target]) => target!);
    expect(targets.length).toBeGreaterThan(4);
    for (const target of targets)
      if (!/^https?:/.test(target)) expect(existsSync(join(root, target)), target).toBe(true);
  });

  it('names only verbs that exist, and all of them are explained', () => {
    const main = readFileSync(join(root, 'src/cli.ts'), 'utf8');
    const verbs = [...main.matchAll(/load: \(\) => import\('\.\/commands\/(\w+)\.js'\)/g)].map(
      ([, verb]) => verb!,
    );
    for (const verb of verbs) expect(existsSync(join(root, 'src/commands', `${verb}.ts`)), verb).toBe(true);
    expect(verbs.length).toBeGreaterThan(10);
    for (const verb of verbs.filter((each) => each !== 'bench'))
      expect(readme, `README does not mention the verb ${verb}`).toMatch(
        new RegExp(`pinchrod ${verb}\\b|run ${verb}\\b`),
      );
  });
});

describe('DEVELOPERS', () => {
  it('has every room of the house on its map', () => {
    const map = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
    for (const room of readdirSync(join(root, 'src'), { withFileTypes: true }).filter((each) =>
      each.isDirectory(),
    ))
      expect(map, room.name).toContain(`\`${room.name}/\``);
  });
});
