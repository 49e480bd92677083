/** Documents in German: every format comes back as it was written, and what the program itself says is German. */
import { readFileSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as label from '../../src/commands/label.js';
import * as ledger from '../../src/commands/ledger.js';
import * as record from '../../src/commands/record.js';
import * as verify from '../../src/commands/verify.js';
import { ran } from './built.js';
import { troubledWorkshop } from './troubled.js';

let root: string;
beforeAll(() => {
  ({ root } = troubledWorkshop());
}, 120_000);
afterAll(() => rmSync(resolve(root, '..'), { recursive: true, force: true }));

describe.each(['txt', 'html', 'pdf', 'json', 'csv'])('a record as %s', (ending) => {
  it.each(['Q1-1', JOB()])('of %s comes back as it was written', async (name) => {
    const file = join(root, `de-${name}.${ending}`);
    const made = await ran(record, root, name, '--language', 'de', '--annex', '--out', file);
    expect(made.code, made.err).toBe(0);
    const checked = await ran(verify, root, file);
    expect(checked.code, checked.out).toBe(0);
  });
});

function JOB(): string {
  return 'quay-end';
}

it('the program, the procedure and verdicts of the journal are told in it', async () => {
  const { out } = await ran(record, root, 'Q1-1', '--language', 'de', '--annex');
  const text = out.replace(/\s+/g, ' ');
  for (const words of [
    'Fertig und freigegeben, mit 1 Sonderfreigabe',
    'Rahmen in den Winkel bringen',
    'Unterschied der Diagonalen 0 mm',
    'Ein Feld: Festfeld',
    'Sonderfreigabe:',
    'Entscheidungsregel: einfache Annahme',
    'auf Deutsch',
  ])
    expect(text).toContain(words);
  // Sentences that only the program writes.
  for (const words of ['Decision rule', 'at most', 'mitre, bottom', 'lifting aid', 'Released by'])
    expect(text).not.toContain(words);
});

it('an HTML page says its language', async () => {
  const { out } = await ran(record, root, 'Q1-1', '--language', 'de', '--format', 'html');
  expect(out).toContain('<html lang="de">');
  expect((await ran(record, root, 'Q1-1', '--format', 'html')).out).toContain('<html lang="en">');
});

it('registers and labels too', async () => {
  expect((await ran(ledger, root, 'lots', '--language', 'de')).out).toContain('VERZEICHNIS DER CHARGEN');
  const file = join(root, 'de.svg');
  expect((await ran(label, root, 'Q1-1', '--language', 'de', '--out', file)).code).toBe(0);
  expect(readFileSync(file, 'utf8')).toContain('Festfeld');
});

it('a language that it does not speak is refused', async () => {
  const { code, err } = await ran(record, root, 'Q1-1', '--language', 'fr');
  expect(code).toBe(2);
  expect(err).toContain('record.option');
});
