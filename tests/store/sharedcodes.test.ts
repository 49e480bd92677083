/** Codes that a scan could take for two things. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sharedCodes } from '../../src/session/lintshop.js';
import { realDisk } from '../../src/store/disk.js';
import { openWorkshop } from '../../src/store/workshop.js';

const lot = (code: string) => ({
  material: 'sealant',
  code,
  at: '2026-03-02T08:00:00.000Z',
  job: 'pier-house',
});

describe('codes', () => {
  const made = openWorkshop(join(import.meta.dirname, '../..'), realDisk);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const workshop = made.value;
  const said = (...codes: string[]) => sharedCodes(workshop, codes.map(lot)).map(({ text }) => text);

  it('of the demonstration are told apart', () => expect(said('SE-2601')).toEqual([]));

  it('of a lot are held against units, instruments, people and set-ups, in any case of letters', () => {
    const { id } = workshop.instruments[0]!;
    expect(said(id.toLowerCase())).toEqual([`"${id}" names two things: an instrument; a lot.`]);
    expect(said('p01-1')).toEqual(['"P01-1" names two things: a unit of pier-house; a lot.']);
    expect(said(workshop.rules.people[0]!.id)).toHaveLength(1);
    expect(said(workshop.setups![0]!.id)).toHaveLength(1);
  });

  it('may be shared by lots of two suppliers: the bench then asks which', () =>
    expect(said('SE-2601', 'SE-2601')).toEqual([]));
});
