/**
 * Words stand in catalogues. What a person reads is found in the code by its look: a text of several words that is not in a
 * catalogue. The rooms in which there is none stay so; elsewhere the number may only fall.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { BOARD_SAYS } from '../src/commands/words/board.js';
import { KEY_SAYS } from '../src/commands/words/keys.js';
import { MAKING_SAYS } from '../src/commands/words/making.js';
import { SETOUT_SAYS } from '../src/commands/words/setout.js';
import { SHOP_SAYS } from '../src/commands/words/shop.js';
import { SQUARE_SAYS } from '../src/commands/words/square.js';
import { VERIFY_SAYS } from '../src/commands/words/verify.js';
import { DOCUMENT_WORDS } from '../src/record/words/en.js';

const SRC = resolve(import.meta.dirname, '../src');
const files = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory()
      ? files(join(folder, entry.name))
      : /\.tsx?$/.test(entry.name) && !entry.name.endsWith('.d.ts')
        ? [join(folder, entry.name)]
        : [],
  );
/** Catalogues, translations, help and the shapes of files. */
const CATALOGUE =
  /(?:formula|positionedyaml|messages|words|german|catalogue|help|usage|schema|jobschema|setschema)\.ts$|\/words\/|german/;
const room = (file: string): string => file.slice(SRC.length + 1).split('/')[0]!;

/** Reads like a sentence or a part of one. */
const isWords = (text: string): boolean =>
  /[A-Za-z]{2,}/.test(text) &&
  /[a-z] [a-zA-Z(“"]|[.,:;?!] [A-Za-z]/.test(text) &&
  !/^\s*<|<\/?\w+[ >]|^(?:insert|select|create|grant|delete|update|where) |xmlns|double>|: (?:double|string)/.test(
    text,
  );

/** A text that nobody reads: a name, a query, a key, what is compared, thrown for programmers, or given to a platform. */
function isForNobody(node: ts.Node): boolean {
  const { parent } = node;
  if (ts.isImportDeclaration(parent) || ts.isExportDeclaration(parent) || ts.isLiteralTypeNode(parent))
    return true;
  if (ts.isPropertyAssignment(parent) && parent.name === node) return true;
  if (ts.isElementAccessExpression(parent) || ts.isCaseClause(parent)) return true;
  // Layout around words is to have none of its own.
  if (ts.isTaggedTemplateExpression(parent)) return parent.tag.getText() !== 'laid';
  if (ts.isBinaryExpression(parent) && /^[!=]==$/.test(parent.operatorToken.getText())) return true;
  if (ts.isNewExpression(parent)) return true;
  if (ts.isCallExpression(parent))
    return /(?:Says|Words|raise|Problem|refused|refusal|declined|say|words|told|query|startsWith|endsWith|includes|RegExp|describe|quoted)$/.test(
      parent.expression.getText(),
    );
  return false;
}

const MOST: Readonly<Record<string, number>> = {
  base: 8,
  commands: 4,
  measure: 3,
  procedure: 68,
  record: 9,
  server: 3,
  session: 4,
  store: 7,
  training: 1,
  tui: 3,
  unit: 11,
  window: 40,
};

interface Found {
  readonly inline: Map<string, string[]>;
  readonly swallowed: string[];
}

function look(): Found {
  const all = files(SRC);
  const config = ts.readConfigFile(resolve(SRC, '../tsconfig.json'), ts.sys.readFile).config as object;
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, resolve(SRC, '..'));
  const program = ts.createProgram(all, { ...options, noEmit: true });
  const checker = program.getTypeChecker();
  const isMessage = (node: ts.Expression): boolean =>
    checker.getTypeAtLocation(node).symbol?.name === 'Message';
  const found: Found = { inline: new Map(), swallowed: [] };
  for (const file of all) {
    const source = program.getSourceFile(file)!;
    const place = (node: ts.Node) =>
      `${file.slice(SRC.length + 1)}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1}`;
    const visit = (node: ts.Node): void => {
      if (ts.isTemplateExpression(node))
        for (const { expression } of node.templateSpans)
          if (isMessage(expression)) found.swallowed.push(`${place(node)} ${expression.getText()}`);
      if (!CATALOGUE.test(file) && (ts.isStringLiteralLike(node) || ts.isTemplateExpression(node))) {
        const text = ts.isStringLiteralLike(node)
          ? node.text
          : [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('');
        if (isWords(text) && !isForNobody(node)) {
          const list = found.inline.get(room(file)) ?? [];
          list.push(`${place(node)} ${node.getText().replace(/\s+/g, ' ').slice(0, 100)}`);
          found.inline.set(room(file), list);
        }
      }
      ts.forEachChild(node, visit);
    };
    visit(source);
  }
  return found;
}

describe('words', () => {
  const { inline, swallowed } = look();

  it('that are told later are never put into a template: they would be English for everybody', () => {
    expect(swallowed).toEqual([]);
  });

  // The names of walls and parts that profile sets are read by, formats, the unattended builder, and what a verb prints;
  // documents are told in English until they have a language of their own.
  it.each(Object.entries(MOST))('of %s: no more than %i stand outside of a catalogue', (name, most) => {
    const there = inline.get(name) ?? [];
    expect(there.length, there.join('\n')).toBeLessThanOrEqual(most);
  });

  it('of documents and verbs are all said somewhere', () => {
    const said = files(SRC)
      .filter((file) => !file.includes('/words/'))
      .map((file) => readFileSync(file, 'utf8'))
      .join('\n');
    // Words for what is counted or classed are found by their id.
    const made = [
      ...said.matchAll(/`((?:doc|board|shop|setout|square)-[\w-]*)\$\{|wordFor\('([\w-]+)'\)/g),
    ].map(([, prefix, name]) => prefix ?? `${name}-`);
    const ids = Object.keys({
      ...DOCUMENT_WORDS,
      ...BOARD_SAYS,
      ...KEY_SAYS,
      ...MAKING_SAYS,
      ...SETOUT_SAYS,
      ...SHOP_SAYS,
      ...SQUARE_SAYS,
      ...VERIFY_SAYS,
    });
    expect(
      ids.filter((id) => !said.includes(`'${id}'`) && !made.some((prefix) => id.startsWith(prefix))),
    ).toEqual([]);
  });

  it('of every room are counted', () => {
    expect([...inline.keys()].filter((name) => !(name in MOST))).toEqual([]);
  });
});
