/** A page and a document per person: what they may do, on what evidence, and what comes next. */

import { Several } from '../base/words.js';
import { LEVEL_WORDS } from '../unit/people.js';
import type { Level, Person } from '../unit/types.js';
import type { PracticeEvent } from './events.js';
import { evidenceFor, type SignoffWorld, standingOptions } from './evidence.js';
import { dayOf, type SkillStatus, standingOf } from './standing.js';
import { trainSays } from './words.js';

interface StageRow {
  readonly stage: string;
  readonly title: string;
  /** Profile sets that this row applies to; empty for all. */
  readonly profileSets: readonly string[];
  readonly level: Level;
  readonly words: string;
  readonly from: SkillStatus['from'];
  readonly why: readonly string[];
  /** Evidence behind the sign-off, as sentences; empty if nothing is signed. */
  readonly evidence: readonly string[];
  readonly next: { readonly level: Level; readonly missing: readonly string[] } | undefined;
}

export interface PersonPage {
  readonly person: {
    readonly id: string;
    readonly initials: string;
    readonly name: string;
    readonly validUntil?: string;
  };
  readonly workshop: string;
  readonly procedure: { readonly name: string; readonly version: string; readonly title: string };
  readonly at: string;
  readonly stages: readonly StageRow[];
  readonly practice: readonly string[];
}

export function personPage(person: Person, world: SignoffWorld): PersonPage {
  const { name, version, title } = world.procedure;
  return {
    person: {
      id: person.id,
      initials: person.initials,
      name: person.name,
      ...(person.validUntil === undefined ? {} : { validUntil: person.validUntil }),
    },
    workshop: world.workshop.name,
    procedure: { name, version, title },
    at: world.now,
    stages: world.procedure.stages.flatMap((stage) => rows(person, stage.id, stage.title, world)),
    practice: practiceText(world.practice(person.id)),
  };
}

/** One row if the stage has no sign-offs specific to a profile set, otherwise one row per set. */
function rows(person: Person, stage: string, title: string, world: SignoffWorld): StageRow[] {
  const sets = world.profileSets ?? [];
  const differs = world.events.some(
    (event) => 'stage' in event && event.person === person.id && event.stage === stage && event.profileSet,
  );
  if (sets.length < 2 || !differs) return [row(person, stage, title, world, undefined)];
  return sets.map((set) => row(person, stage, title, world, set));
}

function row(
  person: Person,
  stage: string,
  title: string,
  world: SignoffWorld,
  set: string | undefined,
): StageRow {
  const standing = standingOf(person, stage, world.events, standingOptions(world, set));
  const { signed } = standing;
  // A lapsed level is renewed at the same level; otherwise the next one up applies.
  const nextLevel = (
    standing.from === 'expired' && signed ? signed.level : Math.min(5, standing.level + 1)
  ) as Level;
  const next =
    standing.level === 5
      ? undefined
      : {
          level: nextLevel,
          missing: evidenceFor(person, stage, nextLevel, world, { profileSet: set }).missing,
        };
  return {
    stage,
    title,
    profileSets: set === undefined ? [] : [set],
    level: standing.level,
    words: String(LEVEL_WORDS[standing.level]),
    from: standing.from,
    why: standing.why,
    evidence: signed ? evidenceText(signed) : [],
    next,
  };
}

function evidenceText(signed: NonNullable<SkillStatus['signed']>): string[] {
  const { units, drills, notes } = signed.evidence;
  const checks = units.reduce((n, unit) => n + unit.checks, 0);
  const passed = units.reduce((n, unit) => n + unit.firstPass, 0);
  return [
    ...(units.length > 0
      ? [
          trainSays('units-supervised', {
            n: units.length,
            units: units.map((unit) => unit.unit),
            passed: String(passed),
            checks: String(checks),
          }),
        ]
      : []),
    ...(drills.length > 0
      ? [
          trainSays('drills-passed', {
            n: drills.length,
            best: String(Math.max(...drills.map((each) => each.points))),
          }),
        ]
      : []),
    ...(notes.length > 0 ? [trainSays('notes-sign-off', { notes: notes.join(', ') })] : []),
    ...(signed.note === undefined ? [] : [signed.note]),
    ...(signed.waived
      ? [
          trainSays('signed-without', {
            missing: signed.waived.missing.join('; '),
            reason: signed.waived.reason,
          }),
        ]
      : []),
  ];
}

function practiceText(events: readonly PracticeEvent[]): string[] {
  const drills = events.filter((event) => event.kind === 'drilled');
  const walks = events.filter((event) => event.kind === 'walk-ended');
  const reviews = events.filter((event) => event.kind === 'reviewed');
  const passed = drills.filter((event) => event.passed).length;
  return [
    ...(drills.length > 0
      ? [trainSays('drills-passed-last', { count: drills.length, passed, at: dayOf(drills.at(-1)!.at) })]
      : []),
    ...(walks.length > 0
      ? [trainSays('practice-walks-last', { count: walks.length, at: dayOf(walks.at(-1)!.at) })]
      : []),
    ...(reviews.length > 0
      ? [
          trainSays('questions-answered-right', {
            count: reviews.length,
            count2: reviews.filter((event) => event.right).length,
            at: dayOf(reviews.at(-1)!.at),
          }),
        ]
      : []),
  ];
}

const FROM_WORDS: Readonly<Record<SkillStatus['from'], string>> = {
  'people-file': trainSays('people-file'),
  signed: 'signed',
  expired: trainSays('run-out'),
  withdrawn: 'withdrawn',
};

export function personText(page: PersonPage): string[] {
  const { person, procedure } = page;
  return [
    `${person.name} (${person.initials}), ${page.workshop}, ${dayOf(page.at)}`,
    trainSays('procedure-version', { procedure: procedure.title, version: procedure.version }),
    ...(person.validUntil === undefined
      ? []
      : [trainSays('all-sign-offs', { validUntil: person.validUntil })]),
    ...page.stages.flatMap((stage) => [
      trainSays('level-of', {
        stage: titleOf(stage),
        level: stage.level,
        words: stage.words,
        from: FROM_WORDS[stage.from],
      }),
      ...stage.why.map((line) => `    ${line}`),
      ...stage.evidence.map((line) => `    ${line}`),
      ...(stage.next ? [`    ${trainSays('next-level', { next: nextText(stage.next) })}`] : []),
    ]),
    ...(page.practice.length > 0 ? ['Practice', ...page.practice.map((line) => `    ${line}`)] : []),
  ];
}

const titleOf = ({ title, profileSets }: StageRow): string =>
  profileSets.length === 0
    ? title
    : trainSays('unit-with-sets', { title, profileSets: profileSets.join(', ') });

const nextText = ({ level, missing }: NonNullable<StageRow['next']>): string =>
  missing.length === 0
    ? trainSays('level-ready', { level: String(level), words: LEVEL_WORDS[level] })
    : trainSays('level-lacking', {
        level: String(level),
        words: LEVEL_WORDS[level],
        missing: new Several(missing),
      });

export function personHtml(page: PersonPage): string {
  const { person, procedure } = page;
  const rows = page.stages
    .map(
      (stage) =>
        trainSays('tr-th-scope', {
          stage: esc(titleOf(stage)),
          level: stage.level,
          words: esc(stage.words),
          from: FROM_WORDS[stage.from],
        }) +
        `<td>${list([...stage.why, ...stage.evidence])}</td><td>${stage.next ? esc(nextText(stage.next)) : ''}</td></tr>`,
    )
    .join('\n');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>${esc(person.name)}: what they may do</title>
<meta name="viewport" content="width=device-width">
<style>
body { font: 15px/1.4 sans-serif; margin: 2rem auto; max-width: 62rem; padding: 0 1rem; color: #111; background: #fff; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid #888; padding: .35rem .5rem; text-align: left; vertical-align: top; }
ul { margin: 0; padding-left: 1.1rem; }
@media print { body { margin: 0; } tr { break-inside: avoid; } }
</style>
</head>
<body>
<main>
<h1>${esc(person.name)} (${esc(person.initials)})</h1>
<p>${esc(page.workshop)}, ${dayOf(page.at)}. Procedure ${esc(procedure.title)}, version ${esc(procedure.version)}.${person.validUntil === undefined ? '' : ` All sign-offs valid until ${esc(person.validUntil)}.`}</p>
<table>
<caption>What this person may do, on what evidence, and what is next</caption>
<thead><tr><th scope="col">Stage</th><th scope="col">Level</th><th scope="col">Standing</th><th scope="col">On what evidence</th><th scope="col">Next</th></tr></thead>
<tbody>
${rows}
</tbody>
</table>
${page.practice.length > 0 ? `<h2>Practice</h2>\n${list(page.practice)}` : ''}
</main>
</body>
</html>
`;
}

const list = (lines: readonly string[]): string =>
  lines.length === 0 ? '' : `<ul>${lines.map((line) => `<li>${esc(line)}</li>`).join('')}</ul>`;

const esc = (text: string): string =>
  text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
