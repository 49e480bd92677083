/** Every catalogue of the program: what is filled in has an example, each entry a note, and each is a message of its standard. */
import { FluentResource } from '@fluent/bundle';
import { describe, expect, it } from 'vitest';
import { CATALOGUES } from './catalogues.js';

const filledIn = (text: string): readonly string[] =>
  [...new Set([...text.matchAll(/\$(\w+)/g)].map(([, name]) => name!))].sort();

describe.each(CATALOGUES)('$room', ({ catalogue }) => {
  it.each(Object.entries(catalogue))('%s', (id, { text, note, example }) => {
    expect(note.trim()).not.toBe('');
    expect(Object.keys(example).sort()).toEqual(filledIn(text));
    const { body } = new FluentResource(`m = ${text.replaceAll('\n', '\n  ')}`);
    expect(body).toHaveLength(1);
    expect(text, id).not.toContain('???');
  });
});

it('an id means one thing', () => {
  const ids = CATALOGUES.flatMap(({ catalogue }) => Object.keys(catalogue));
  expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
});
