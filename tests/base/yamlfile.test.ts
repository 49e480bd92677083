import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { name, text } from '../../src/base/schemas.js';
import { readYaml } from '../../src/base/yaml.js';

const schema = z.strictObject({
  title: text(),
  items: z.array(z.strictObject({ id: name, size: z.number().positive() })),
});
const read = (source: string) => readYaml({ file: 'shared/x.yaml', text: source }, schema);
const problems = (source: string) => {
  const result = read(source);
  return result.ok ? [] : result.problems;
};

describe('readYaml', () => {
  it('gives values with their places', () => {
    const result = read('title: one\nitems:\n  - id: a\n    size: 2\n');
    expect(result.ok && result.value.value).toEqual({ title: 'one', items: [{ id: 'a', size: 2 }] });
    const place = result.ok ? result.value.at(['items', 0, 'size']) : undefined;
    expect([place?.line, place?.column]).toEqual([4, 11]);
    expect(JSON.stringify(place)).toBe('{"file":"shared/x.yaml","line":4,"column":11}');
  });

  it.each([
    ['title: [', 'file.yaml', 1],
    ['title: one\nitems:\n  - id: a\n    size: -2\n', 'file.schema', 4],
    ['title: one\nitems: []\ntitel: two\n', 'file.schema', 3],
    ['title: "a\\e[31m"\nitems: []\n', 'file.control', 1],
    ['title: &a one\nitems: []\n', 'file.alias', 1],
    ['title: one\ntitle: two\nitems: []\n', 'file.yaml', 2],
    ['title: one\nitems:\n  - id: a..b\n    size: 1\n', 'file.schema', 3],
    ['', 'file.schema', 1],
    ['\ufefftitle: one\nitems: 3\n', 'file.schema', 2],
  ])('names the place: %j', (source, id, line) => {
    const found = problems(source);
    expect(found.length).toBeGreaterThan(0);
    expect(found[0]!.id).toBe(id);
    expect(found[0]!.place!.line).toBe(line);
    expect(found[0]!.todo).not.toBe('');
  });

  it('refuses what would cost memory or time', () => {
    expect(problems(`title: ${'['.repeat(60)}${']'.repeat(60)}\nitems: []\n`)[0]!.id).toBe('file.deep');
    expect(problems(`title: ${'x'.repeat(2_000_001)}`)[0]!.id).toBe('file.too-large');
    expect(problems('a: &a [1,1]\nb: [*a,*a]\n')[0]!.id).toBe('file.alias');
  });
});
