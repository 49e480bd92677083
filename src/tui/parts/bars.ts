/** The fixed rows: unit and signer at the top; note, entry line and keys at the bottom. */

import widthOf from 'string-width';
import { sanitize } from '../../base/text.js';
import { data, laid } from '../../base/words.js';
import type { World } from '../../session/ports.js';
import { secondOf } from '../answers.js';
import { currentTask } from '../currenttask.js';
import { type Command, footerOf, keyText, marking, type WordedKey } from '../keys/table.js';
import { answerKeys, hidesEntry } from '../screens/screens.js';
import { stageStrip } from '../screens/unit.js';
import type { BenchState, Tone } from '../state.js';
import { shape, type Theme } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import { blanks, crop, justify, type Line, line, lineWidth, type Span } from './line.js';

export function headerLines(state: BenchState, world: World, width: number, theme: Theme): readonly Line[] {
  const dash = theme.ascii ? '-' : '─';
  const rule = line(data(dash.repeat(width)));
  const who = personText(state, world);
  const { open } = world;
  if (!open) {
    return [
      justify([{ text: laid` ${sanitize(world.rules.name)}`, tone: 'strong' }], who, width),
      justify(
        [{ text: laid` ${told(world)('head-no-unit')}` }],
        [{ text: data([...shopText(world), `${world.bench} `].join('   ')) }],
        width,
      ),
      rule,
    ];
  }
  const at = currentTask(open.state, state.at)?.step.step.stage;
  const stages = stageStrip(open.state, at, width - 4, theme);
  const strip = line(data(`${dash} ${stages} ${dash.repeat(width)}`.slice(0, width)));
  const { unit } = open.setOut;
  const { lights } = open.setOut;
  const say = told(world);
  const sentence =
    lights.length === 1 ? say.retell(lights[0]!.sentence) : say('head-lights', { n: lights.length });
  const left = (words: string): Line => [
    { text: laid` ${sanitize(open.id)}`, tone: 'strong' },
    { text: laid`   ${unit.width} x ${unit.height}   ${sanitize(words)}` },
  ];
  // If it does not all fit, leave this out: the drawing states the side it is seen from.
  const whole = left(sentence);
  const fits = lineWidth(whole) + lineWidth(who) < width;
  const first = fits ? whole : left(sentence.replace(`, ${say.retell('seen from outside')}`, ''));
  return [justify(first, who, width), whereRow(state, world, width), strip];
}

function personText(state: BenchState, world: World): Line {
  const person = world.rules.people.find(({ id }) => id === state.person);
  const second = world.rules.people.find(({ id }) => id === secondOf(state));
  const say = told(world);
  const by = second ? laid` ${say('head-with')} ${sanitize(second.initials)}` : data('');
  return person
    ? [
        { text: laid`${say('head-signs')} ` },
        { text: laid`${sanitize(person.initials)}${by} `, tone: 'strong' },
      ]
    : [{ text: laid`${say('head-nobody')} `, tone: 'ask' }];
}

/**
 * Stage and step on the left, how the unit stands on the right. The step's name is what must be read: where there is no room
 * for all, the stage goes first, which the strip below shows, then what the unit's own screen tells.
 */
function whereRow(state: BenchState, world: World, width: number): Line {
  const [whole, step] = whereTexts(state, world);
  const tries = [
    [whole, standingText(world)],
    [step, standingText(world)],
    [step, standingText(world, ['set'])],
    [step, standingText(world, ['set', 'done'])],
  ] as const;
  const [left, right] =
    tries.find((each) => lineWidth(each[0]) + lineWidth(each[1]) < width) ?? tries.at(-1)!;
  return justify(left, right, width);
}

/** With the stage and without. */
function whereTexts(state: BenchState, world: World): readonly [Line, Line] {
  const open = world.open!;
  const task = currentTask(open.state, state.at);
  const standing: Line = [{ text: laid` ${told(world)(`standing-${open.state.standing}`)}` }];
  if (!task) return [standing, standing];
  const stage = open.state.route.stages.find(({ id }) => id === task.step.step.stage);
  const step = sanitize(task.step.step.title);
  return [
    [
      { text: laid` ${sanitize((stage?.title ?? task.step.step.stage).toUpperCase())}`, tone: 'strong' },
      { text: laid`   ${step}` },
    ],
    [{ text: laid` ${step}`, tone: 'strong' }],
  ];
}

/** `1 snag   2 holds   14 of 52 done`. @param without what gives way */
function standingText(world: World, without: readonly ('set' | 'done')[] = []): Line {
  const { state, readOnly, readOnlyTodo, keptBy, setOut } = world.open!;
  const say = told(world);
  const held = [...state.steps.values()].filter(({ status }) => status === 'held').length;
  const snags = state.snags.filter(({ open }) => open).length;
  const parts = [
    ...shopText(world),
    setOut.profileSet.invented && !without.includes('set') ? say('head-invented') : '',
    readOnly === undefined ? '' : say(keptBy || readOnlyTodo !== undefined ? 'head-look' : 'head-free'),
    state.parked ? say('head-parked') : '',
    snags > 0 ? say('head-snags', { n: snags }) : '',
    held > 0 ? say('head-holds', { n: held }) : '',
    without.includes('done') ? '' : say('head-done', { done: state.done, of: state.steps.size }),
  ];
  return [{ text: data(`${parts.filter((part) => part !== '').join('   ')} `) }];
}

/** What the server of a shop does not have yet; nothing while all is there. */
function shopText(world: World): readonly string[] {
  const { shop } = world;
  const say = told(world);
  if (!shop || (!shop.down && shop.waiting === 0)) return [];
  const waiting = shop.waiting === 0 ? '' : say('head-hand-over', { n: shop.waiting });
  return [[shop.down ? say('head-line-down') : '', waiting].filter((part) => part !== '').join(', ')];
}

// The bottom of every screen: note, entry line and keys.

export function noteLines(state: BenchState, world: World, width: number, theme: Theme): readonly Line[] {
  const { note } = state;
  if (!note)
    return [
      unsigned(state, world) ? crop([{ text: laid` ${told(world)('nobody-yet')}`, tone: 'ask' }], width) : [],
      [],
    ];
  return [
    crop(
      [
        {
          text: SIGNS[note.tone]
            ? laid` ${shape(SIGNS[note.tone]!, theme)} ${sanitize(note.text)}`
            : laid` ${sanitize(note.text)}`,
          tone: note.tone,
        },
      ],
      width,
    ),
    note.todo === undefined ? [] : crop([{ text: laid` ${sanitize(note.todo)}` }], width),
  ];
}

/** Whether a step waits for an answer that nobody could sign; said before something is typed in vain. */
const unsigned = (state: BenchState, world: World): boolean =>
  state.screen.name === 'step' && state.person === undefined && world.open?.readOnly === undefined;

/** Each colour comes with a shape. */
const SIGNS: Partial<Record<Tone, string>> = { good: 'v', bad: 'X', ask: '!' };

/** The entry line and its cursor column. A long entry shows its end. */
export function entryLine(
  state: BenchState,
  world: World,
  width: number,
): { readonly line: Line; readonly cursor: number } {
  const shown = hidesEntry(state, world)
    ? '*'.repeat([...state.entry].length)
    : sanitize(state.entry.replaceAll('\u001d', '·'));
  const room = width - 4;
  let tail = shown;
  while (widthOf(tail) > room) tail = [...tail].slice(1).join('');
  return { line: [{ text: data(' > ') }, { text: data(tail), tone: 'strong' }], cursor: 3 + widthOf(tail) };
}

export function footerLine(state: BenchState, world: World, width: number, theme: Theme): Line {
  const arrows: Record<string, string> = theme.ascii ? {} : { right: '→', left: '←', up: '↑', down: '↓' };
  const spans: Span[] = [];
  let used = 0;
  const { moved } = state.screen.cursor;
  const say = told(world);
  const keys = [
    ...answerKeys(state, world),
    ...footerOf(state.screen.name).flatMap((each) =>
      each.id === 'act' && !moved ? marking(say) : [wordedKey(each, say)],
    ),
  ];
  // What a key does here comes before what it does on every screen.
  const own = keys.filter(({ key }, i) => keys.findIndex((each) => each.key === key) === i);
  for (const { key, words } of own) {
    const next: Line = [
      blanks(spans.length === 0 ? 1 : 2),
      { text: key in arrows ? data(arrows[key]!) : keyText(key, say), tone: 'strong' },
      { text: laid` ${words}` },
    ];
    // Drop what does not fit; the help page lists everything.
    if (used + lineWidth(next) > width) break;
    spans.push(...next);
    used += lineWidth(next);
  }
  return spans;
}

const wordedKey = ({ id, keys }: Command, say: BenchSay): WordedKey => ({
  key: keys[0]!,
  words: say(id === 'act' ? 'foot-choose' : `key-${id}`),
});
