/** Draws a document as one HTML file: no script, nothing fetched, prints on A4, tables that a screen reader can walk. */
import { plain } from '../ground/plain.js';
import { type Block, type Cell, type Document, type Figure, type Line, lines } from './blocks.js';
import { STYLE } from './style.js';

export function htmlOf(document: Document): string {
  const sections = sectioned(document.blocks);
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<meta name="author" content="${escapeHtml(document.author)}">
<meta name="description" content="${escapeHtml(document.subject)}">
<meta name="pinchrod-record" content="${escapeHtml(document.proof)}">
<title>${escapeHtml(document.title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
${sections}
</main>
<footer><p>${escapeHtml(document.foot)}</p></footer>
</body>
</html>
`;
}

/** Text as it may stand in HTML text and in double-quoted attributes. */
export function escapeHtml(text: string): string {
  return plain(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

/**
 * Each heading of level 2 opens a section. In one unit's document the section is named by it, so that a screen reader can
 * go from one to the next; in a document of many units each unit is an article, and its headings stand a level lower.
 */
function sectioned(blocks: readonly Block[]): string {
  const many = blocks.filter(({ kind }) => kind === 'title').length > 1;
  const out: string[] = [];
  const open: ('section' | 'article')[] = [];
  const close = (upTo: 'section' | 'article') => {
    while (open.length > 0 && (open.at(-1) === 'section' || upTo === 'article')) out.push(`</${open.pop()}>`);
  };
  let count = 0;
  let titles = 0;
  for (const block of blocks) {
    const deeper = many && titles > 1 ? 1 : 0;
    if (block.kind === 'title') {
      close('article');
      titles += 1;
      if (many) {
        out.push('<article>');
        open.push('article');
      }
      out.push(title(block, titles));
    } else if (block.kind === 'heading' && block.level === 2) {
      close('section');
      count += 1;
      const level = `h${2 + deeper}`;
      out.push(
        many ? '<section>' : `<section aria-labelledby="h${count}">`,
        `<${level} class="part" id="h${count}">${escapeHtml(block.text)}</${level}>`,
      );
      open.push('section');
    } else out.push(drawn(block, deeper));
  }
  close('article');
  return out.join('\n');
}

function title(block: Block & { kind: 'title' }, nth: number): string {
  const level = nth === 1 ? 'h1' : 'h2';
  return [
    `<div class="head${block.newPage ? ' page' : ''}">`,
    `<p class="over">${escapeHtml(block.over)}</p>`,
    `<${level} class="title">${escapeHtml(block.text)}</${level}>`,
    ...(block.under === '' ? [] : [`<p class="under">${escapeHtml(block.under)}</p>`]),
    '</div>',
  ].join('\n');
}

function drawn(block: Exclude<Block, { kind: 'title' }>, deeper: number): string {
  switch (block.kind) {
    case 'verdict':
      return `<div class="verdict ${block.tone}"><p class="line">${escapeHtml(block.text)}</p><p>${escapeHtml(block.under)}</p></div>`;
    case 'heading':
      return `<h${block.level + deeper} class="stage">${escapeHtml(block.text)}</h${block.level + deeper}>`;
    case 'text':
      return `<p${block.look ? ` class="${block.look}"` : ''}>${escapeHtml(block.text)}</p>`;
    case 'list':
      return `<ul${block.tone ? ` class="${block.tone}"` : ''}>\n${block.items.map((item) => `<li>${escapeHtml(item)}</li>`).join('\n')}\n</ul>`;
    case 'facts':
      return facts(block.caption, block.rows);
    case 'front':
      return `<div class="front">\n${facts(block.caption, block.rows)}\n${block.figure ? figure(block.figure) : ''}\n</div>`;
    case 'figures':
      return `<div class="figures">\n${block.figures.map(figure).join('\n')}\n</div>`;
    case 'table':
      return table(block);
  }
}

function facts(caption: string, rows: readonly (readonly [string, Cell])[]): string {
  const body = rows.map(
    ([label, cell]) => `<tr><th scope="row">${escapeHtml(label)}</th><td>${content(cell)}</td></tr>`,
  );
  return `<table class="facts"><caption>${escapeHtml(caption)}</caption><tbody>\n${body.join('\n')}\n</tbody></table>`;
}

function table(block: Block & { kind: 'table' }): string {
  const shares = block.columns.reduce((sum, { share }) => sum + share, 0);
  // Widths by class: the number of different widths is small, and the file needs no style attribute.
  const columns = block.columns
    .map(({ share }) => `<col class="w${Math.round((share / shares) * 50) * 2}">`)
    .join('');
  const heads = block.columns.map(({ title }) => `<th scope="col">${escapeHtml(title)}</th>`).join('');
  const rows = block.rows.map(
    ([first, ...rest]) =>
      `<tr><th scope="row">${content(first ?? '')}</th>${rest.map((cell) => `<td>${content(cell)}</td>`).join('')}</tr>`,
  );
  return `<table class="data"><caption>${escapeHtml(block.caption)}</caption><colgroup>${columns}</colgroup>
<thead><tr>${heads}</tr></thead>
<tbody>\n${rows.join('\n')}\n</tbody></table>`;
}

const content = (cell: Cell): string => {
  const all = lines(cell);
  if (all.length === 1) return span(all[0]!);
  return all.map((line) => `<span class="l ${line.look ?? ''}">${escapeHtml(line.text)}</span>`).join('\n');
};
const span = (line: Line): string =>
  line.look ? `<span class="${line.look}">${escapeHtml(line.text)}</span>` : escapeHtml(line.text);

/** The SVG comes from the program's own drawing code, which escapes what it writes; it is made a named image here. */
function figure(shown: Figure): string {
  const drawing =
    shown.svg === ''
      ? ''
      : shown.svg
          .replace(/^<\?xml[^>]*\?>\s*/, '')
          .replace(/<svg(?![^>]*\brole=)/, `<svg role="img" aria-label="${escapeHtml(shown.alt)}"`);
  return [
    '<figure>',
    drawing,
    `<figcaption><span class="l strong">${escapeHtml(shown.title)}</span>${shown.facts.map((fact) => `\n<span class="l">${escapeHtml(fact)}</span>`).join('')}</figcaption>`,
    '</figure>',
  ].join('\n');
}
