import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Licence texts of every package with files in the bundles (`inputs`: paths from `root`). */
export function licences(root, inputs) {
  const packages = new Set();
  for (const input of inputs) {
    const match = /node_modules\/((?:@[^/]+\/)?[^/]+)(?!.*node_modules\/)/.exec(input);
    if (match) packages.add(input.slice(0, match.index + match[0].length));
  }
  const parts = [...packages].sort().map((folder) => {
    const meta = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
    const file = [
      'LICENSE',
      'LICENSE.md',
      'LICENSE.txt',
      'license',
      'license.md',
      'LICENCE',
      'License.md',
    ].find((f) => existsSync(join(root, folder, f)));
    const text = file
      ? readFileSync(join(root, folder, file), 'utf8').trim()
      : '(no licence file in the package)';
    return `${meta.name} ${meta.version} (${meta.license})\n\n${text}`;
  });
  return `pinchrod's bundle holds these packages.\n\n${parts.join(`\n\n${'-'.repeat(72)}\n\n`)}\n`;
}
