/**
 * The YAML parser that tracks lines and columns. Used only to look up a place or to diagnose a suspect text: parsing
 * every file with it takes 1.4 times as long, and 161 MB instead of the fast parser's 112 MB.
 */

import { isAlias, isCollection, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml';
import { type Place, type Problem, problemFactory, type SourceText } from './problem.js';
import { wayOut, word } from './words.js';

/** Maximum nesting depth. */
export const DEEPEST = 40;

export const YAML_MESSAGES = {
  'file.yaml': word('{ $fault }', 'the file is not valid YAML', {
    fault: 'Implicit keys need to be on a single line',
  }),
  'file.yaml.todo': wayOut('Mend the line named; indent with spaces only.'),
  'file.yaml/quotes': word('{ $fault }', 'as file.yaml', {
    fault: 'Nested mappings are not allowed in compact mappings',
  }),
  'file.yaml/quotes.todo': wayOut('Put a text or a formula that holds a colon and a blank in single quotes.'),
  'file.yaml/twice': word('{ $fault }', 'as file.yaml', { fault: 'Map keys must be unique' }),
  'file.yaml/twice.todo': wayOut('The key on that line stands twice: take one out, or give it another name.'),
  'file.yaml/key': word('A key is a list or a table.', 'as file.yaml'),
  'file.too-large': word(
    'The file has { $count } characters; { $largest } are taken.',
    'a workshop file is larger than 2 MB',
    { count: '3', largest: '1000000' },
  ),
  'file.too-large.todo': wayOut('Split the file, or remove what does not belong in it.'),
  'file.alias': word('The file uses an anchor or an alias.', 'the file uses YAML aliases or anchors'),
  'file.alias.todo': wayOut('Write the value out in full; anchors and aliases are not taken.'),
  'file.deep': word('The file is nested more than { $deepest } deep.', 'the file is nested too deeply', {
    deepest: '40',
  }),
  'file.deep.todo': wayOut('Nest at most 40 levels.'),
  'file.deep/brackets': word('Brackets are opened in brackets without end.', 'as file.deep'),
  'file.schema': word(
    '{ $path }: { $fault }',
    'a key is missing, unknown, or has a value of the wrong kind',
    { path: 'units.0.width', fault: 'this key is missing' },
  ),
  'file.schema.todo': wayOut('See the manual of this file format for the keys it takes.'),
  'file.schema/value.todo': wayOut('Write "{ $near }", or another of: { $known }.', {
    near: 'side-hung',
    known: 'fixed, side-hung',
  }),
  'file.schema/value': word('{ $path }: { $fault }', 'as file.schema', {
    path: 'units.0.layout.hinge',
    fault: '"lft" is not known here; known are left, right, top',
  }),
  'file.schema/key': word('{ $path }: this key is not known here', 'as file.schema', {
    path: 'units.0.colour',
  }),
  'file.schema/key.todo': wayOut('Known here: { $known }.', { known: 'width, height' }),
  'file.schema/number': word('{ $path }: "{ $given }" is no number', 'as file.schema', {
    path: 'units.0.width',
    given: '950,5',
  }),
  'file.schema/number.todo': wayOut('Write digits alone, with a point for decimals: { $number }.', {
    number: '950.5',
  }),
  'file.schema/comma': word('{ $path }: a figure with a comma', 'as file.schema', {
    path: 'constants.gap.8',
  }),
  'file.schema/comma.todo': wayOut('Write it with a point, as in 0.8.'),
  'file.schema/near': word('{ $path }: this key is not known here; "{ $near }" is', 'as file.schema', {
    path: 'units.0.witdh',
    near: 'width',
  }),
  'file.schema/near.todo': wayOut('Write "{ $near }", or another key known here: { $known }.', {
    near: 'width',
    known: 'width, height',
  }),
  'file.control': word('{ $path }: { $fault }', 'a text holds control characters', {
    path: 'title',
    fault: 'holds a control character',
  }),
  'file.control.todo': wayOut('Type the text again; only visible characters are taken.'),
} as const;

const raise = problemFactory(YAML_MESSAGES);

/** What the reader calls it when a colon in a text is taken for one behind a key. */
const NESTED: ReadonlySet<string> = new Set(['BLOCK_AS_IMPLICIT_KEY', 'BLOCK_IN_FLOW']);

/** The text parsed with positions, once, on first use. */
export class PositionedYaml {
  readonly #source: SourceText;
  #read: { readonly document: ReturnType<typeof parseDocument>; readonly lines: LineCounter } | undefined;

  constructor(source: SourceText) {
    this.#source = source;
  }

  #careful() {
    if (!this.#read) {
      const lines = new LineCounter();
      const document = parseDocument(this.#source.text, {
        lineCounter: lines,
        prettyErrors: false,
        uniqueKeys: true,
        strict: true,
        // Otherwise the library prints its warnings straight to the terminal.
        logLevel: 'error',
      });
      this.#read = { document, lines };
    }
    return this.#read;
  }

  #place(offset: number): Place {
    const { line, col } = this.#careful().lines.linePos(offset);
    return { file: this.#source.file, line, column: col };
  }

  problems(): Problem[] {
    const { document } = this.#careful();
    if (document.errors.length > 0)
      // What comes after the first is mostly its echo: a tab makes twenty.
      return document.errors
        .slice(0, 1)
        .map(({ code, message, pos }) =>
          code === 'DUPLICATE_KEY'
            ? raise('file.yaml/twice', { fault: message }, this.#place(pos[0]))
            : NESTED.has(code)
              ? raise('file.yaml/quotes', { fault: message }, this.#place(pos[0]))
              : raise('file.yaml', { fault: message }, this.#place(pos[0])),
        );
    const structural = checkTree(document.contents, (offset) => this.#place(offset));
    return structural ? [structural] : [];
  }

  value(): unknown {
    return this.#careful().document.toJS({ maxAliasCount: 0 });
  }

  find(path: readonly PropertyKey[]): Place {
    const placeOf = (node: unknown): Place | undefined => {
      const range = (node as Node | null)?.range;
      return range ? this.#place(range[0]) : undefined;
    };
    let node: unknown = this.#careful().document.contents;
    let place = placeOf(node) ?? { file: this.#source.file, line: 1, column: 1 };
    for (const step of path) {
      let next: unknown;
      if (isMap(node)) {
        const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step));
        if (pair) place = placeOf(pair.value) ?? placeOf(pair.key) ?? place;
        next = pair?.value;
      } else if (isSeq(node)) {
        next = node.items[Number(step)];
        place = placeOf(next) ?? place;
      }
      if (next === undefined || next === null) return place;
      node = next;
    }
    return place;
  }
}

function checkTree(root: unknown, place: (offset: number) => Place): Problem | undefined {
  const stack: [unknown, number][] = [[root, 0]];
  while (stack.length > 0) {
    const [node, depth] = stack.pop()!;
    const offset = (node as Node | null)?.range?.[0] ?? 0;
    if (isAlias(node) || (node as { anchor?: string } | null)?.anchor)
      return raise('file.alias', {}, place(offset));
    if (depth > DEEPEST) return raise('file.deep', { deepest: DEEPEST }, place(offset));
    if (isCollection(node))
      for (const item of node.items) {
        const pair = item as { key?: unknown; value?: unknown };
        // Unquoted "{{ x }}" parses as such a key.
        if (isMap(node) && isCollection(pair.key))
          return raise('file.yaml/key', {}, place(pair.key.range?.[0] ?? offset));
        if (isMap(node)) stack.push([pair.key, depth + 1], [pair.value, depth + 1]);
        else stack.push([item, depth + 1]);
      }
  }
  return undefined;
}
