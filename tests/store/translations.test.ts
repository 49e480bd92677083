/** Second languages of procedures, by their files' names: found, read once, and refused by name where they are not right. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Procedure } from '../../src/procedure/model.js';
import { parseProcedure } from '../../src/procedure/parse.js';
import { realDisk } from '../../src/store/disk.js';
import { isTranslation, translations } from '../../src/store/translations.js';

const SHIPPED = resolve(import.meta.dirname, '../../procedures');
const YAML = ['.yaml', '.yml'];
let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  mkdirSync(join(root, 'procedures'));
  for (const name of ['casement.yaml', 'casement.de.yaml'])
    cpSync(join(SHIPPED, name), join(root, 'procedures', name));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));
const put = (name: string, text: string): void => writeFileSync(join(root, 'procedures', name), text);
const german = (): string => readFileSync(join(SHIPPED, 'casement.de.yaml'), 'utf8');
const open = () => translations(realDisk, root, YAML);
const casement = (): Procedure => {
  const file = 'procedures/casement.yaml';
  const read = parseProcedure({ file, text: readFileSync(join(root, file), 'utf8') });
  if (!read.ok) throw new Error(read.problems[0]!.text);
  return read.value;
};

it('are told from procedures by their names alone', () => {
  put('casement.fr.yml', 'nonsense');
  put('casement.2.yaml', 'nonsense');
  expect(open().names).toEqual([
    { procedure: 'casement', language: 'de', file: 'procedures/casement.de.yaml' },
    { procedure: 'casement', language: 'fr', file: 'procedures/casement.fr.yml' },
  ]);
  expect(['casement', 'casement.2', 'casement.DE', '.de'].filter(isTranslation)).toEqual([]);
  rmSync(join(root, 'procedures'), { recursive: true });
  expect(open().names).toEqual([]);
});

it('give the procedure with the same steps in the other language, read once for each procedure', () => {
  const all = open();
  const procedure = casement();
  const read = all.of(procedure, 'de');
  if (!read?.ok) throw new Error('not translated');
  expect(read.value).toMatchObject({ name: 'casement', language: 'de' });
  expect(read.value.title).not.toBe(procedure.title);
  expect(all.of(procedure, 'de')).toBe(read);
  expect(all.of(casement(), 'de')).not.toBe(read);
});

it('are none where nobody translated that procedure, or into that language', () => {
  expect(open().of(casement(), 'fr')).toBeUndefined();
  expect(open().of({ ...casement(), name: 'other' }, 'de')).toBeUndefined();
});

describe('a file that is not right is a problem of its own', () => {
  it.each<[string, string, () => void, object]>([
    [
      'named for another language',
      'fr',
      () => put('casement.fr.yaml', german()),
      { id: 'workshop.name', text: 'The file holds "de", but is named for "fr".' },
    ],
    ['that is no text', 'de', () => put('casement.de.yaml', 'a\0'), { id: 'workshop.not-text' }],
    ['of another form', 'de', () => put('casement.de.yaml', 'format: x\n'), { id: 'file.schema' }],
    [
      'of another procedure',
      'de',
      () => put('casement.de.yaml', german().replace('procedure: casement', 'procedure: other')),
      { id: 'procedure.translation-of' },
    ],
  ])('%s', (_, language, make, problem) => {
    make();
    const read = open().of(casement(), language);
    expect(read).toMatchObject({ ok: false });
    const [first] = read?.ok === false ? read.problems : [];
    expect(first).toMatchObject({ ...problem, place: { file: `procedures/casement.${language}.yaml` } });
  });
});
