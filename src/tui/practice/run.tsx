/** A practice conversation on the whole screen. Loaded only when there is a terminal to draw on. */
import { type Problem, problemText } from '../../base/problem.js';
import { type Key, KeyReader } from '../keys/split.js';
import type { Size } from '../layout.js';
import { stayAtTerminal } from '../terminal.js';
import type { Theme } from '../theme.js';
import { bodyRows, TalkScreen, type TalkState, talkCursor, talkKey, talkSaid, talkStart } from './screen.js';

/** A drill as a conversation: the same one that scripts talk to. */
export interface Talk {
  readonly title: string;
  readonly over: boolean;
  readonly help: readonly string[];
  readonly prompt: string;
  readonly picture?: (columns: number, rows: number, ascii: boolean) => readonly string[];
  type(line: string): { readonly says: readonly string[] } | { readonly problem: Problem };
}

/** Runs until the drill is over and looked at, or left. Gives whether every line was understood. */
export async function runTalk(talk: Talk, opening: readonly string[], theme: Theme): Promise<boolean> {
  let state: TalkState = talkStart(opening, talk.over);
  let understood = true;
  const reader = new KeyReader();
  let seen: Size = { columns: 80, rows: 24 };
  const view = {
    get title() {
      return talk.title;
    },
    get standing() {
      return talk.prompt.trim();
    },
    picture: (columns: number, rows: number) => talk.picture?.(columns, rows, theme.ascii) ?? [],
  };

  function take(key: Key): void {
    const pressed = talkKey(state, key, bodyRows(seen));
    state = pressed.state;
    if (pressed.typed === undefined) return;
    if (/^(quit|exit)$/i.test(pressed.typed)) state = { ...state, left: true };
    else if (/^(help|\?)$/i.test(pressed.typed)) state = talkSaid(state, talk.help, talk.over);
    else {
      const answer = talk.type(pressed.typed);
      if ('problem' in answer) understood = false;
      state = talkSaid(state, 'problem' in answer ? [problemText(answer.problem)] : answer.says, talk.over);
    }
  }
  const all = (pressed: readonly Key[]): void => {
    for (const key of pressed) if (!state.left) take(key);
  };

  const ending = await stayAtTerminal({
    page: (size) => {
      seen = size;
      return <TalkScreen state={state} view={view} size={size} theme={theme} />;
    },
    cursor: (size) => talkCursor(state, size),
    feed: (chunk) => all(reader.feed(chunk)),
    quiet: () => all(reader.quiet()),
    waits: () => reader.waits(),
    left: () => state.left,
    drawn: true,
  });
  if (ending.how === 'fault') throw ending.error;
  return understood;
}
