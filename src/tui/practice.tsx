/** A full-screen practice drill. Loaded only when there is a terminal to draw on. */

import { Box } from 'ink';
import widthOf from 'string-width';
import { type Problem, problemTold } from '../base/problem.js';
import { linesRetold } from '../base/retell.js';
import { data, laid, type Reader, type Say, type Spoken, sayIn } from '../base/words.js';
import { type Key, KeyReader } from './keys/split.js';
import { crop, justify, type Line, line, wrapLine } from './parts/line.js';
import { Rows } from './parts/rows.js';
import type { Size } from './terminal.js';
import { runTerminal } from './terminal.js';
import type { Theme } from './theme.js';
import { BENCH_WORDS } from './words/en.js';

/** A drill as a dialogue, shared with the line-based interface that scripts use. */
export interface Dialogue {
  readonly title: string;
  /** Whether these are questions of the program rather than a drill. */
  readonly asks?: boolean;
  readonly over: boolean;
  readonly help: readonly string[];
  readonly prompt: string;
  readonly picture?: (columns: number, rows: number, ascii: boolean) => readonly string[];
  type(line: string): { readonly says: readonly string[] } | { readonly problem: Problem };
}

/**
 * Runs until the drill is over and its result seen, or the user leaves. Returns whether every line was understood.
 * @param inEnglish what a drill takes for what was typed in the reader's language
 */
export async function runTalk(
  talk: Dialogue,
  opening: readonly string[],
  theme: Theme,
  reader: Reader,
  inEnglish: (line: string) => string,
): Promise<boolean> {
  const told = (says: readonly string[]) => says.map((text) => linesRetold(text, reader));
  let state: TalkState = talkStart(told(opening), talk.over);
  let understood = true;
  const keys = new KeyReader();
  let seen: Size = { columns: 80, rows: 24 };
  const view = {
    say: sayIn(BENCH_WORDS, reader.tell),
    get title() {
      return reader.retell(talk.title);
    },
    get standing() {
      return reader.retell(talk.prompt.trim());
    },
    asks: talk.asks ?? false,
    picture: (columns: number, rows: number) => talk.picture?.(columns, rows, theme.ascii) ?? [],
  };

  function take(key: Key): void {
    const pressed = talkKey(state, key, bodyRows(seen));
    state = pressed.state;
    if (pressed.typed === undefined) return;
    if (/^(quit|exit)$/i.test(pressed.typed)) state = { ...state, left: true };
    else if (/^(help|\?)$/i.test(pressed.typed)) state = talkSaid(state, told(talk.help), talk.over);
    else {
      const answer = talk.type(inEnglish(pressed.typed));
      if ('problem' in answer) understood = false;
      state = talkSaid(
        state,
        'problem' in answer ? [problemTold(answer.problem, reader.tell)] : told(answer.says),
        talk.over,
      );
      // Questions have no result to look at.
      if (talk.asks && talk.over) state = { ...state, left: true };
    }
  }
  const all = (pressed: readonly Key[]): void => {
    for (const key of pressed) if (!state.left) take(key);
  };

  const ending = await runTerminal({
    page: (size) => {
      seen = size;
      return <TalkScreen state={state} view={view} size={size} theme={theme} />;
    },
    cursor: (size) => talkCursor(state, size),
    feed: (chunk) => all(keys.feed(chunk)),
    quiet: () => all(keys.quiet()),
    waits: () => keys.waits(),
    left: () => state.left,
    drawn: true,
  });
  if (ending.how === 'fault') throw ending.error;
  return understood;
}

// The practice screen: the dialogue on the left, a picture on the right if there is room, the entry line below.

type PracticeSay = Say<typeof BENCH_WORDS>;

interface TalkView {
  readonly say: PracticeSay;
  readonly title: string;
  readonly asks: boolean;
  /** One quiet line: the current status. */
  readonly standing: Spoken;
  /** The picture at this size; empty if there is none. */
  readonly picture: (columns: number, rows: number) => readonly string[];
}

export interface TalkScreenProps {
  readonly state: TalkState;
  readonly view: TalkView;
  readonly size: Size;
  readonly theme: Theme;
}

/** One row stays unused so that nothing ever scrolls. */
const heightOf = ({ rows }: Size): number => Math.max(6, rows - 1);
const bodyRows = (size: Size): number => heightOf(size) - 5;
const PROMPT = data(' > ');

export function TalkScreen({ state, view, size, theme }: TalkScreenProps) {
  const width = Math.max(40, size.columns);
  const body = bodyRows(size);
  const side = width >= 100 ? Math.floor(width * 0.38) : 0;
  const left = width - side - (side > 0 ? 1 : 0);
  const rule = data((theme.ascii ? '-' : '─').repeat(width));
  return (
    <Box flexDirection="column" width={width} height={heightOf(size)}>
      <Rows
        lines={[
          justify(
            line(
              laid` ${view.asks ? data(view.title) : view.say('practice-head', { title: view.title })}`,
              'strong',
            ),
            line(laid`${view.standing} `),
            width,
          ),
          line(rule),
        ]}
        theme={theme}
        width={width}
        height={2}
      />
      <Box width={width} height={body} flexShrink={0}>
        <Rows lines={saidLines(state, left, body)} theme={theme} width={left} height={body} />
        {side > 0 ? (
          <Box marginLeft={1}>
            <Rows
              lines={view.picture(side, body).map((text) => crop(line(data(text)), side))}
              theme={theme}
              width={side}
              height={body}
            />
          </Box>
        ) : null}
      </Box>
      <Rows
        lines={[
          line(rule),
          crop(line(laid`${PROMPT}${data(state.entry)}`, 'strong'), width),
          footer(state, width, view),
        ]}
        theme={theme}
        width={width}
        height={3}
      />
    </Box>
  );
}

const talkCursor = (state: TalkState, size: Size): { readonly x: number; readonly y: number } => ({
  x: Math.min(size.columns - 1, widthOf(PROMPT + state.entry)),
  y: heightOf(size) - 2,
});

/** The last lines that fit, wrapped; drawings are left as they are. */
export function saidLines({ said, back }: TalkState, width: number, rows: number): readonly Line[] {
  const upto = said.slice(0, said.length - back);
  const lines = upto
    .slice(-rows)
    .flatMap((text) =>
      wrapLine(data(text), width - 1, text.startsWith('> ') ? 'strong' : 'plain').map((row) =>
        crop(row, width),
      ),
    );
  return lines.slice(-rows);
}

function footer(state: TalkState, width: number, { say, asks }: TalkView): Line {
  if (state.over) return crop(line(laid` ${say(asks ? 'asked-over' : 'practice-over')}`, 'strong'), width);
  if (state.leaving)
    return crop(line(laid` ${say(asks ? 'asked-leaves' : 'practice-leaves')}`, 'strong'), width);
  return justify(line(laid` ${say('practice-help')}`), line(laid`${say('practice-keys')} `), width);
}

export interface TalkState {
  /** The dialogue so far, one line each; typed lines begin with "> ". */
  readonly said: readonly string[];
  readonly entry: string;
  readonly back: number;
  readonly over: boolean;
  /** Esc was pressed once; a second press leaves. */
  readonly leaving: boolean;
  readonly left: boolean;
}

export const talkStart = (opening: readonly string[], over = false): TalkState => ({
  said: opening.flatMap((text) => text.split('\n')),
  entry: '',
  back: 0,
  over,
  leaving: false,
  left: false,
});

const LONGEST = 200;

/** Handles one key. On Enter, returns the typed line with the new state; does not act on it. */
export function talkKey(
  state: TalkState,
  key: Key,
  page: number,
): { readonly state: TalkState; readonly typed?: string } {
  const staying = { ...state, leaving: false };
  switch (key.name) {
    case 'char':
      return state.over || state.entry.length >= LONGEST
        ? { state: staying }
        : { state: { ...staying, entry: state.entry + (key.text ?? ''), back: 0 } };
    case 'backspace':
    case 'delete':
      return { state: { ...staying, entry: [...state.entry].slice(0, -1).join('') } };
    case 'enter': {
      if (state.over) return { state: { ...staying, left: true } };
      const typed = state.entry.trim();
      if (typed === '') return { state: staying };
      return { state: { ...staying, entry: '', back: 0, said: [...state.said, `> ${typed}`] }, typed };
    }
    case 'page-up':
      return { state: { ...staying, back: Math.min(Math.max(0, state.said.length - 1), state.back + page) } };
    case 'page-down':
      return { state: { ...staying, back: Math.max(0, state.back - page) } };
    case 'escape':
      if (state.entry !== '') return { state: { ...staying, entry: '' } };
      return state.leaving || state.over
        ? { state: { ...state, left: true } }
        : { state: { ...state, leaving: true } };
    case 'ctrl+c':
    case 'ctrl+d':
      return { state: { ...state, left: true } };
    default:
      return { state: staying };
  }
}

export const talkSaid = (state: TalkState, says: readonly string[], over: boolean): TalkState => ({
  ...state,
  said: [...state.said, ...says.flatMap((text) => text.split('\n'))],
  over,
});
