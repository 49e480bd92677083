/** Job tables as spreadsheets save them: with a line for the delimiter, headings in the reader's language, other bytes. */
import { expect, it } from 'vitest';
import { problemText } from '../../src/base/problem.js';
import { textIn } from '../../src/store/filecollection.js';
import { parseJob } from '../../src/window/job.js';

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
    /hof\.csv:2:13: Column "etage_7x" is not known\. \[job\.csv\]\n {2}Known columns: job, title/,
  );
});

it('a word that is not known is told as it was written', () => {
  expect(read(ENGLISH.replace(',out,', ',outwards,'))).toContain(
    'Column opens_1: "outwards" is not known here; known are out, in',
  );
});
