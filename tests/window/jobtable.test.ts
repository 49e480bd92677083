/** Job tables as spreadsheets save them: with a line for the delimiter, headings in the reader's language, other bytes. */
import { expect, it } from 'vitest';
import { problemText } from '../../src/base/problem.js';
import { textIn } from '../../src/store/filecollection.js';
import { parseJob } from '../../src/window/job.js';
import { cellWord, headingOf } from '../../src/window/jobheadings.js';
import { sourceOf } from '../procedure/samples.js';

const read = (text: string) => {
  const job = parseJob({ file: 'shared/jobs/hof.csv', text });
  return job.ok ? job.value : job.problems.map(problemText).join('\n');
};
const GERMAN = `sep=;
Auftrag;Titel;Kunde;Profilsatz;Arbeitsanweisung;Stand;Farbe;Glas;Position;Anzahl;Breite;Höhe;Raum;Feld 1;Angeschlagen 1;Gesehen von 1;Öffnet 1;Sicherheitsglas
hof;Hof;N. Crowe (erfunden);w52;casement;A;weiß;4-16-4;F1;2;650,5;1150;Küche;Drehflügel;links;außen;nach außen;nein
`;
const ENGLISH = `job,title,customer,profile_set,procedure,revision,colour,glass,mark,quantity,width,height,room,light_1,hinge_1,viewed_from_1,opens_1,safety_glass
hof,Hof,N. Crowe (erfunden),w52,casement,A,weiß,4-16-4,F1,2,650.5,1150,Küche,side-hung,left,outside,out,no
`;

it('is the same job with German headings and words as with the format’s own', () => {
  expect(read(ENGLISH)).not.toBeTypeOf('string');
  expect(read(GERMAN)).toEqual(read(ENGLISH));
});

it('saved by a spreadsheet under Windows reads as in UTF-8; no other file does', () => {
  const bytes = Buffer.from([...GERMAN].map((letter) => letter.codePointAt(0)!));
  expect(textIn('shared/jobs/hof.csv', bytes)).toBe(GERMAN);
  expect(textIn('shared/jobs/hof.yaml', bytes)).toBeUndefined();
  expect(textIn('shared/jobs/hof.csv', Buffer.from(`\ufeff${GERMAN}`))).toBe(GERMAN);
  expect(textIn('shared/jobs/hof.csv', Buffer.from('a\0b'))).toBeUndefined();
});

it('asks about a point that may be one for thousands; places are those of the file', () => {
  expect(read(GERMAN.replace('650,5', '1.400'))).toMatch(
    /^shared\/jobs\/hof\.csv:3:11: Column width: "1\.400" is 1400 or 1,400\. \[job\.csv\]\n {2}Write 1400 or 1,400\.$/,
  );
  // With commas between the cells, a point is that of decimals.
  expect(read(ENGLISH.replace('650.5', '650.125'))).not.toBeTypeOf('string');
});

it('offers the nearest heading, or all of them', () => {
  expect(read(ENGLISH.replace('width', 'witdh'))).toContain('Column "witdh" is not known; "width" is.');
  expect(read(GERMAN.replace('Raum', 'Etage-7x'))).toMatch(
    /hof\.csv:2:13: Column "Etage-7x" is not known\. \[job\.csv\]\n {2}Known columns: job, title/,
  );
});

it('a word that is not known is told as it was written', () => {
  expect(read(ENGLISH.replace(',out,', ',outwards,'))).toContain(
    'Column opens_1: "outwards" is not known here; known are out, in',
  );
});

it('the manual’s German headings and words are read as it says', () => {
  const { text: manual } = sourceOf('shared/jobs/README.md');
  const section = manual.slice(manual.indexOf('### In German'), manual.indexOf('## When something is wrong'));
  const rows = [...section.matchAll(/^\|(.+)\|$/gm)].map(([, row]) =>
    row!.split('|').map((cell) => cell.trim()),
  );
  const pairs = rows.slice(2).flatMap((cells) => [0, 2, 4].map((i) => [cells[i]!, cells[i + 1]!] as const));
  expect(pairs.length).toBeGreaterThan(30);
  for (const [german, column] of pairs)
    for (const heading of german.split(', '))
      expect(headingOf(heading), heading).toBe(column.replaceAll('`', ''));
  const words = section.slice(section.indexOf('Cells: ') + 7).replace(/\.\s*$/, '');
  for (const word of words
    .split(/[,;(]\s*(?:or )?/)
    .map((each) => each.replace(')', '').replace(/\s+/g, ' ').trim()))
    expect(cellWord(word), word).not.toBe(word.toLowerCase());
});

it('a heading that is not known is told as it is written', () => {
  const made = parseJob({
    file: 'a.csv',
    text: 'job,profile_set,procedure,mark,Breit,height,glass,Licht 1,Unfug\na,w52,casement,W1,900,1200,4-16-4,fest,x\n',
  });
  const said = made.ok ? '' : made.problems.map(({ text }) => text).join('\n');
  expect(said).toContain('"Unfug"');
  expect(said).not.toContain('sight_1');
  expect(said).not.toContain('Licht');
});
