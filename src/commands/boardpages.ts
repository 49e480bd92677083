/** The board by stage and the hand-over page, as text. */
import type { StageRow } from '../build/board.js';
import { HANDOVER_TITLES } from '../build/digests.js';
import type { Handover, HandoverLine } from '../build/handover.js';
import { plain } from '../ground/plain.js';

export function stageText(stages: readonly StageRow[]): string[] {
  const out: string[] = [];
  let stage: string | undefined;
  const wide = stages.reduce((most, { title }) => Math.max(most, title.length), 0);
  for (const row of stages) {
    if (row.stage !== stage) out.push(...(stage === undefined ? [] : ['']), plain(row.stage));
    stage = row.stage;
    const { notStarted = [] } = row;
    const places = [
      ...(row.open.length === 0 ? [] : [`> ${row.open.length} open: ${names(row.open)}`]),
      ...(row.held.length === 0 ? [] : [`H ${row.held.length} held: ${names(row.held)}`]),
      ...(notStarted.length === 0 ? [] : [`. ${notStarted.length} not started: ${names(notStarted)}`]),
    ];
    out.push(`  ${plain(row.title).padEnd(wide)}  ${places.join('  ')}`);
  }
  return stages.length === 0 ? ['No step is open or held in any unit.'] : out;
}

/** So many are named; a screen is not filled with one row. */
const NAMED = 12;
function names(units: readonly { readonly job: string; readonly unit: string }[]): string {
  const shown = units.slice(0, NAMED).map(({ job, unit }) => plain(`${job}/${unit}`));
  return [...shown, ...(units.length > NAMED ? [`and ${units.length - NAMED} more`] : [])].join(', ');
}

export function handoverText(page: Handover, since: string): string[] {
  const out = [`Hand-over at ${page.at.slice(0, 16)} UTC; notes since ${since.slice(0, 16)} UTC`];
  for (const [heading, title] of HANDOVER_TITLES) {
    const lines: readonly HandoverLine[] = page[heading];
    if (lines.length === 0) continue;
    out.push(
      '',
      title,
      ...lines.map(({ job, unit, text }) => `  ${plain(`${job}/${unit}`)}  ${plain(text)}`),
    );
  }
  if (out.length === 1) out.push('', 'Nothing is open: every unit that was begun is finished.');
  return out;
}
