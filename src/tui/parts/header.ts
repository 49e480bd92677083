/** The two rows that are always there: which unit, how it opens, and whose name will be written. */

import { plain } from '../../base/text.js';
import type { World } from '../../session/ports.js';
import { standOf } from '../stand.js';
import type { BenchState } from '../state.js';
import type { Theme } from '../theme.js';
import { STANDING } from '../words.js';
import { type Line, line, lineWidth, spread } from './line.js';

export function headerLines(state: BenchState, world: World, width: number, theme: Theme): readonly Line[] {
  const rule = line((theme.ascii ? '-' : '─').repeat(width));
  const who = personText(state, world);
  const { open } = world;
  if (!open) {
    return [
      spread([{ text: ` ${plain(world.rules.name)}`, tone: 'strong' }], who, width),
      spread([{ text: ' no unit on the bench' }], [{ text: `${world.bench} ` }], width),
      rule,
    ];
  }
  const { unit } = open.setOut;
  const { lights } = open.setOut;
  const sentence = lights.length === 1 ? lights[0]!.sentence : `${lights.length} lights`;
  const left = (words: string): Line => [
    { text: ` ${open.id}`, tone: 'strong' },
    { text: `   ${unit.width} x ${unit.height}   ${plain(words)}` },
  ];
  // Where there is not room for all of it, the drawing says from which side it is seen.
  const whole = left(sentence);
  const fits = lineWidth(whole) + lineWidth(who) < width;
  const first = fits ? whole : left(sentence.replace(', seen from outside', ''));
  return [spread(first, who, width), spread(whereText(state, world), standingText(world), width), rule];
}

function personText(state: BenchState, world: World): Line {
  const person = world.rules.people.find(({ id }) => id === state.person);
  const second = world.rules.people.find(({ id }) => id === state.second);
  const by = second ? ` with ${plain(second.initials)}` : '';
  return person
    ? [{ text: 'signs: ' }, { text: `${plain(person.initials)}${by} `, tone: 'strong' }]
    : [{ text: 'nobody signs ', tone: 'ask' }];
}

function whereText(state: BenchState, world: World): Line {
  const open = world.open!;
  const stand = standOf(open.state, state.at);
  if (!stand) return [{ text: ` ${STANDING[open.state.standing].word}` }];
  const stage = open.state.route.stages.find(({ id }) => id === stand.step.step.stage);
  return [
    { text: ` ${plain(stage?.title ?? stand.step.step.stage).toUpperCase()}`, tone: 'strong' },
    { text: `   ${plain(stand.step.step.title)}` },
  ];
}

/** `step 14 of 52   2 holds   1 snag`. */
function standingText(world: World): Line {
  const { state, readOnly, keptBy, setOut } = world.open!;
  const held = [...state.steps.values()].filter(({ status }) => status === 'held').length;
  const snags = state.snags.filter(({ open }) => open).length;
  const parts = [
    setOut.profileSet.invented ? 'invented set' : '',
    readOnly === undefined ? '' : keptBy ? 'LOOKING ONLY' : 'FREE AGAIN: F2',
    state.parked ? 'PARKED' : '',
    snags > 0 ? `${snags} ${snags === 1 ? 'snag' : 'snags'}` : '',
    held > 0 ? `${held} ${held === 1 ? 'hold' : 'holds'}` : '',
    `${state.done} of ${state.steps.size} done`,
  ];
  return [{ text: `${parts.filter((part) => part !== '').join('   ')} ` }];
}
