import { localeLanguage } from '../base/locale.js';
import { problemFactory, problemTold } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { BENCH_MESSAGES } from '../session/messages.js';
import { connectToShop } from '../session/shopline.js';
import { realPorts } from '../session/workshopports.js';
import { type Theme, themeFrom } from './theme.js';
import { told } from './words/told.js';

export interface BenchOptions {
  readonly workshop: string;
  /** A unit to open at once. */
  readonly unit?: string;
  /** Overrides what the environment says. */
  readonly theme?: Partial<Theme>;
}

/** Runs until the user leaves the bench. Returns the exit code; problems go to standard error. */
export async function openBench(options: BenchOptions): Promise<number> {
  const { stdin, stdout, stderr, env, platform } = process;
  const language = localeLanguage(env);
  const { tell } = told({ language });
  if (!stdin.isTTY || !stdout.isTTY) {
    stderr.write(`${problemTold(problemFactory(BENCH_MESSAGES)('bench.no-terminal'), tell)}\n`);
    return 2;
  }
  const made = realPorts({ workshop: options.workshop });
  if (!made.ok) {
    for (const problem of made.problems) stderr.write(`${problemTold(problem, tell)}\n`);
    return 2;
  }
  // The terminal library draws nothing while CI is set, and reads that variable when it is loaded.
  env.CI = 'false';
  const { runBench } = await import('./run.js');
  const ports = made.value;
  const { zone } = ports.place.workshop;
  const theme = { ...themeFrom(env, platform), zone, ...options.theme };
  // Reads the board, so that warnings() includes what could not be read.
  ports.world();
  const line = await connectToShop(ports, { ahead: true });
  const trouble = ports.testLogs() ?? ports.warnings()[0] ?? made.warnings[0];
  const ended = await runBench(ports, {
    theme,
    language,
    ...(options.unit === undefined ? {} : { unit: options.unit }),
    ...(trouble ? { trouble } : {}),
  });
  await line?.stop();
  if (ended.text !== undefined) stderr.write(`${plainLines(ended.text)}\n`);
  return ended.code;
}

const plainLines = (text: string): string => text.split('\n').map(sanitize).join('\n');
