/** Renders a document as one HTML file: no scripts, nothing fetched, prints on A4, accessible tables. */
import { sanitize } from '../base/text.js';
import {
  type Block,
  type BlockLine,
  type Cell,
  type Document,
  type Figure,
  headingsTo,
  lines,
  linkSign,
  type Photograph,
} from './blocks.js';

export function htmlOf(document: Document): string {
  const sections = sectioned(document.blocks, document.layered);
  return `<!DOCTYPE html>
<html lang="${document.say.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<meta name="author" content="${escapeHtml(document.author)}">
<meta name="description" content="${escapeHtml(document.subject)}">
${document.proof === '' ? '' : `<meta name="pinchrod-record" content="${escapeHtml(document.proof)}">\n`}<title>${escapeHtml(document.title)}</title>
<style>${styleOf(document)}</style>
</head>
<body>
<main>
${sections}
</main>
<footer><p>${shown(document.foot)}</p></footer>
</body>
</html>
`;
}

const styleOf = ({ layered, paper }: Document): string =>
  layered ? `${paper ? STYLE.replace('size:A4', 'size:letter') : STYLE}${LAYER_STYLE}` : STYLE;

/** Escapes text for HTML content and double-quoted attributes. */
export function escapeHtml(text: string): string {
  return sanitize(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

const TO_THE_LEFT =
  '\\p{Script=Hebrew}\\p{Script=Arabic}\\p{Script=Syriac}\\p{Script=Thaana}\\p{Script=Nko}\\p{Script=Adlam}';
const RUN_TO_THE_LEFT = new RegExp(
  `[${TO_THE_LEFT}](?:[${TO_THE_LEFT}\\p{Mark}\\s'’.-]*[${TO_THE_LEFT}\\p{Mark}])?`,
  'gu',
);

/** Text between tags. Words that run to the left are set apart, so that they do not turn the figures and signs around them. */
const shown = (text: string): string => escapeHtml(text).replace(RUN_TO_THE_LEFT, '<bdi>$&</bdi>');

/**
 * Each level 2 heading opens a section. In a single unit's document the heading names the section, so that a screen
 * reader can jump between sections. In a document of several units each unit is an article, with headings one level
 * lower.
 */
function sectioned(blocks: readonly Block[], layered: boolean): string {
  const ids = idsOf(blocks);
  const many = blocks.filter(({ kind }) => kind === 'title').length > 1;
  const out: string[] = [];
  const open: ('section' | 'article')[] = [];
  const close = (upTo: 'section' | 'article') => {
    while (open.length > 0 && (open.at(-1) === 'section' || upTo === 'article')) out.push(`</${open.pop()}>`);
  };
  let count = 0;
  let titles = 0;
  for (const [i, block] of blocks.entries()) {
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
        `<${level} class="part" id="h${count}">${shown(block.text)}</${level}>`,
      );
      open.push('section');
    } else if (block.kind === 'link')
      out.push(
        `<p class="${block.calm ? 'calm' : 'open'}">${linkSign(block)} <a href="#h${count + headingsTo(blocks, i, block.to)}">${shown(block.text)}</a></p>`,
      );
    else out.push(drawn(block, deeper, ids, layered));
  }
  close('article');
  return out.join('\n');
}

/** Ids of the rows that links lead to, by their marks. */
type Ids = ReadonlyMap<string, string>;
const idsOf = (blocks: readonly Block[]): Ids =>
  new Map(
    blocks
      .flatMap((block) => (block.kind === 'table' ? (block.marks ?? []) : []))
      .map((mark, i) => [mark, `r${i + 1}`]),
  );

function title(block: Block & { kind: 'title' }, nth: number): string {
  const level = nth === 1 ? 'h1' : 'h2';
  return [
    `<div class="head${block.newPage ? ' page' : ''}">`,
    `<p class="over">${shown(block.over)}</p>`,
    `<${level} class="title">${shown(block.text)}</${level}>`,
    ...(block.under === '' ? [] : [`<p class="under">${shown(block.under)}</p>`]),
    '</div>',
  ].join('\n');
}

function drawn(
  block: Exclude<Block, { kind: 'title' | 'link' }>,
  deeper: number,
  ids: Ids,
  layered: boolean,
): string {
  switch (block.kind) {
    case 'verdict':
      return `<div class="verdict ${block.tone}"><p class="line">${shown(block.text)}</p><p>${shown(block.under)}</p></div>`;
    case 'heading':
      return `<h${block.level + deeper} class="stage">${shown(block.text)}</h${block.level + deeper}>`;
    case 'text':
      return `<p${block.look ? ` class="${block.look}"` : ''}>${shown(block.text)}</p>`;
    case 'list':
      return `<ul${block.tone ? ` class="${block.tone}"` : ''}>\n${block.items.map((item) => `<li>${shown(item)}</li>`).join('\n')}\n</ul>`;
    case 'facts':
      return facts(block.caption, block.rows, ids);
    case 'front':
      return `<div class="front">\n${facts(block.caption, block.rows, ids)}\n${block.figure ? figure(block.figure) : ''}\n</div>`;
    case 'photographs':
      return `<div class="figures photographs">\n${block.photographs.map(photograph).join('\n')}\n</div>`;
    case 'figures':
      return `<div class="figures${block.small ? ' small' : block.wide ? ' wide' : ''}">\n${block.figures.map(figure).join('\n')}\n</div>`;
    case 'table':
      return table(block, ids, layered);
  }
}

function facts(caption: string, rows: readonly (readonly [string, Cell])[], ids: Ids): string {
  const body = rows.map(
    ([label, cell]) => `<tr><th scope="row">${shown(label)}</th><td>${content(cell, ids)}</td></tr>`,
  );
  return `<table class="facts"><caption>${shown(caption)}</caption><tbody>\n${body.join('\n')}\n</tbody></table>`;
}

function table(block: Block & { kind: 'table' }, ids: Ids, layered: boolean): string {
  const shares = block.columns.reduce((sum, { share }) => sum + share, 0);
  // Widths as classes: there are few distinct widths, and the file then needs no style attributes.
  const columns = block.columns
    .map(({ share }) => {
      const part = (share / shares) * 50;
      // A narrow column must hold the code of its row.
      return `<col class="w${(layered ? Math.ceil(part) : Math.round(part)) * 2}">`;
    })
    .join('');
  const heads = block.columns.map(({ title }) => `<th scope="col">${shown(title)}</th>`).join('');
  // On a narrow screen each cell stands below its own title.
  const label = (i: number) => (layered ? ` data-title="${escapeHtml(block.columns[i]!.title)}"` : '');
  const rows = block.rows.map(([first, ...rest], n) => {
    const mark = block.marks?.[n];
    const id = mark === undefined ? '' : ` id="${ids.get(mark)}"`;
    const cells = rest.map((cell, i) => `<td${label(i + 1)}>${content(cell, ids)}</td>`).join('');
    return `<tr${id}><th scope="row"${label(0)}>${content(first!, ids)}</th>${cells}</tr>`;
  });
  return `<table class="data"><caption>${shown(block.caption)}</caption><colgroup>${columns}</colgroup>
<thead><tr>${heads}</tr></thead>
<tbody>\n${rows.join('\n')}\n</tbody></table>`;
}

const content = (cell: Cell, ids: Ids): string => {
  const all = lines(cell);
  if (all.length === 1) return span(all[0]!, ids);
  return all.map((line) => `<span class="l ${line.look ?? ''}">${led(line, ids)}</span>`).join('\n');
};
const span = (line: BlockLine, ids: Ids): string =>
  line.look ? `<span class="${line.look}">${led(line, ids)}</span>` : led(line, ids);
const led = ({ text, to }: BlockLine, ids: Ids): string =>
  to === undefined ? shown(text) : `<a href="#${ids.get(to) ?? ''}">${shown(text)}</a>`;

const photograph = ({ title, alt, png }: Photograph): string =>
  [
    '<figure>',
    `<img src="data:image/png;base64,${png}" alt="${escapeHtml(alt)}">`,
    `<figcaption><span class="l">${shown(title)}</span></figcaption>`,
    '</figure>',
  ].join('\n');

/** The SVG comes from our own drawing code, which escapes what it writes; this makes it a named image. */
function figure(drawn: Figure): string {
  const drawing =
    drawn.svg === ''
      ? ''
      : drawn.svg
          .replace(/^<\?xml[^>]*\?>\s*/, '')
          .replace(/<svg(?![^>]*\brole=)/, `<svg role="img" aria-label="${escapeHtml(drawn.alt)}"`);
  return [
    '<figure>',
    drawing,
    `<figcaption><span class="l strong">${shown(drawn.title)}</span>${drawn.facts.map((fact) => `\n<span class="l">${shown(fact)}</span>`).join('')}</figcaption>`,
    '</figure>',
  ].join('\n');
}

/** The document style sheet: plain black on white, one A4 column; tone is always in words too, never colour alone. */
const widths = Array.from({ length: 50 }, (_, i) => `.w${(i + 1) * 2}{width:${(i + 1) * 2}%}`).join('');

const STYLE = `
@page{size:A4;margin:14mm 14mm 16mm}
*{box-sizing:border-box}
html{background:#fff;color:#161616;font:10pt/1.4 "Noto Sans","Liberation Sans",Arial,Helvetica,sans-serif}
body{margin:0 auto;max-width:184mm;padding:8mm 4mm}
.head{border-bottom:.7mm solid #161616;padding-bottom:2mm;margin-bottom:4mm}
.over{margin:0;font-size:9pt;color:#4a4a4a;letter-spacing:.02em}
.title{margin:.5mm 0 0;font-size:20pt;line-height:1.2;border:0;padding:0}
.under{margin:.5mm 0 0;color:#4a4a4a}
.part{font-size:12.5pt;margin:7mm 0 2mm;padding-bottom:.8mm;border-bottom:.25mm solid #8a8a8a;break-after:avoid}
.stage{font-size:10.5pt;margin:4mm 0 1.2mm;break-after:avoid}
p{margin:2mm 0}
.verdict{border:.5mm solid #8a5a00;border-left-width:3mm;padding:2.5mm 4mm;margin:4mm 0;break-inside:avoid;background:#fff8e8}
.verdict p{margin:0}
.verdict .line{font-size:15pt;font-weight:700;line-height:1.3}
.verdict.good{border-color:#14662f;background:#f0f8f2}
.verdict.bad{border-color:#a01b1b;background:#fdf1f0}
ul{margin:2mm 0;padding-left:5mm}
li{margin:.6mm 0}
ul.bad{list-style:"\\2192  "}
ul.open{list-style:"!  "}
table{border-collapse:collapse;width:100%;margin:1mm 0 3mm}
caption{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
th,td{text-align:left;vertical-align:top;padding:.9mm 2mm .9mm 0;font-weight:400;overflow-wrap:anywhere}
.data{table-layout:fixed;font-size:8.5pt;line-height:1.35}
.data thead th{font-weight:700;border-bottom:.3mm solid #161616;vertical-align:bottom}
.data tbody tr{border-bottom:.15mm solid #c4c4c4;break-inside:avoid}
thead{display:table-header-group;break-after:avoid}
.data tbody tr:first-child{break-before:avoid}
.facts th{width:38mm;color:#4a4a4a}
.facts tr{border-bottom:.15mm solid #dcdcdc;break-inside:avoid}
.front{display:flex;gap:6mm;align-items:flex-start}
.front .facts{flex:1 1 auto}
.front figure{flex:0 0 64mm}
.figures{display:flex;flex-wrap:wrap;gap:4mm 8mm}
.figures figure{flex:0 0 84mm;break-inside:avoid}
figure{margin:0}
figure svg{display:block;width:100%;height:auto;max-height:95mm}
figcaption{font-size:8.5pt}
.l{display:block}
.strong{font-weight:700}
.quiet{color:#4a4a4a;font-size:.94em}
p.quiet{font-size:8.5pt}
span.good{color:#14662f;font-weight:700}
span.bad{color:#a01b1b;font-weight:700}
span.open{color:#7a4a00;font-weight:700}
.code{font-family:"Noto Sans Mono","Liberation Mono",Consolas,monospace;font-size:.88em;overflow-wrap:anywhere}
footer{margin-top:8mm;border-top:.25mm solid #8a8a8a;font-size:8pt;color:#4a4a4a}
@media print{body{max-width:none;padding:0}.page{break-before:page}html{font-size:9.5pt}}
@media screen{.page{margin-top:20mm}}
@media screen and (max-width:700px){.front{flex-direction:column}.front figure{flex-basis:auto}}
${widths}
`;

/** For documents in layers: page numbers in print, cells below one another on a phone, whole words. */
const LAYER_STYLE = `
@page{@bottom-right{content:counter(page) " / " counter(pages);font:8pt "Noto Sans","Liberation Sans",Arial,sans-serif;color:#4a4a4a}}
a{color:#123f7d}
.small figure{flex:0 0 54mm}
.wide figure{flex:1 1 100%}
.photographs{gap:3mm}
.photographs figure{flex:0 0 26mm}
.photographs img{display:block;max-width:26mm;max-height:26mm}
tr[id]>th{white-space:nowrap}
tr:target{outline:.4mm solid #123f7d}
.data{font-size:8.6pt}
.data th,.data td{overflow-wrap:break-word}
.data .quiet,.quiet{font-size:1em}
.code{font-size:1em}
.part+.data,.part+p{break-before:avoid}
@media print{a{color:inherit;text-decoration:none}.data{font-size:8pt}.facts{font-size:8.6pt}}
@media screen and (max-width:700px){
.data,.data tbody,.data tr,.data th,.data td{display:block;width:auto}
.data colgroup,.data thead{display:none}
.data tbody tr{padding:1.5mm 0}
.data tbody th,.data tbody td{padding:.3mm 0}
.data tbody th::before,.data tbody td::before{content:attr(data-title) ": ";color:#4a4a4a}
.data tbody td:empty{display:none}
.facts th{width:30mm}
}
`;
