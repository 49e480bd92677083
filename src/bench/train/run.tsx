/** A practice conversation on the whole screen. Loaded only when there is a terminal to draw on. */
import { render } from 'ink';
import { type Problem, problemText } from '../../ground/problem.js';
import { flush, type Key, SPLIT_START, split } from '../keys/split.js';
import { FrameStream, SilentInput, takeScreen } from '../terminal.js';
import type { Theme } from '../theme.js';
import { bodyRows, TalkScreen, talkCursor } from './screen.js';
import { type TalkState, talkKey, talkSaid, talkStart } from './state.js';

/** After an unfinished escape sequence the line counts as quiet so long after, ms. */
const QUIET_MS = 50;
const SIGNALS = ['SIGTERM', 'SIGHUP', 'SIGINT'] as const;

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
export function runTalk(talk: Talk, opening: readonly string[], theme: Theme): Promise<boolean> {
  const { stdin, stdout } = process;
  let state: TalkState = talkStart(opening, talk.over);
  let understood = true;
  const screen = takeScreen(
    stdin,
    stdout,
    (size) => talkCursor(state, size),
    () => undefined,
  );
  const view = {
    get title() {
      return talk.title;
    },
    get standing() {
      return talk.prompt.trim();
    },
    picture: (columns: number, rows: number) => talk.picture?.(columns, rows, theme.ascii) ?? [],
  };
  const tree = () => <TalkScreen state={state} view={view} size={screen.size()} theme={theme} />;
  const instance = render(tree(), {
    stdout: screen.page as unknown as NodeJS.WriteStream,
    stdin: new SilentInput() as unknown as NodeJS.ReadStream,
    stderr: new FrameStream(screen.size, () => {}) as unknown as NodeJS.WriteStream,
    debug: true,
    exitOnCtrlC: false,
    patchConsole: false,
  });
  const draw = () => instance.rerender(tree());

  function take(key: Key): void {
    const pressed = talkKey(state, key, bodyRows(screen.size()));
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

  return new Promise((resolve, reject) => {
    let keys = SPLIT_START;
    let quiet: NodeJS.Timeout | undefined;
    const all = (pressed: readonly Key[]): void => {
      try {
        for (const key of pressed) if (!state.left) take(key);
      } catch (error) {
        end();
        reject(error);
        return;
      }
      if (state.left) end();
      else draw();
    };
    const onData = (chunk: Buffer): void => {
      clearTimeout(quiet);
      const cut = split(keys, chunk);
      keys = cut.state;
      all(cut.keys);
      if (keys.pending !== '' && !state.left)
        quiet = setTimeout(() => {
          const last = flush(keys);
          keys = last.state;
          all(last.keys);
        }, QUIET_MS);
    };
    const redraw = (): void => {
      screen.clear();
      draw();
    };
    const onExit = (): void => screen.leave();
    let ended = false;
    function end(): void {
      if (ended) return;
      ended = true;
      clearTimeout(quiet);
      for (const signal of SIGNALS) process.off(signal, end);
      process.off('exit', onExit);
      stdout.off('resize', redraw);
      stdin.off('data', onData);
      stdin.off('end', end);
      stdin.off('error', end);
      stdin.pause();
      screen.leave();
      instance.unmount();
      resolve(understood);
    }
    for (const signal of SIGNALS) process.on(signal, end);
    process.on('exit', onExit);
    stdout.on('resize', redraw);
    stdin.on('data', onData);
    stdin.on('end', end);
    stdin.on('error', end);
    stdin.resume();
  });
}
