/** The squaring, setting-out and fault-finding drills, line by line. */
import {
  actFaults,
  beginFaults,
  type FaultAction,
  type FaultDrill,
  faultTask,
  openStep,
  scoreFaults,
} from '../../training/faultfinding.js';
import { declined } from '../../training/messages.js';
import {
  checkSetOut,
  parseSetOutLine,
  setOutCheckText,
  setOutTask,
  setOutTaskText,
} from '../../training/settingout.js';
import { actSquaring, squaringPicture } from '../../training/squaring/act.js';
import { beginSquaring } from '../../training/squaring/begin.js';
import { type GameLevel, type SquaringLimits, squaringLimits } from '../../training/squaring/model.js';
import { scoreSquaring } from '../../training/squaring/remarks.js';
import {
  parseSquaring,
  SQUARING_HELP,
  scoreText,
  squaringStanding,
  squaringTask,
} from '../../training/squaring/words.js';
import { trainSays } from '../../training/words.js';
import { asJson, EXIT, type Io } from '../io.js';
import { type Conversation, converse, failed, keep, type Session, sayTo, type TrainingShop } from './shop.js';

export interface DrillOptions {
  readonly person: string | undefined;
  readonly seed: number | undefined;
  readonly json: boolean;
}

export async function squaring(
  shop: TrainingShop | undefined,
  options: DrillOptions & { readonly level: GameLevel; readonly size: { w: number; h: number } | undefined },
  session: Session,
  io: Io,
): Promise<number> {
  const limits: SquaringLimits = squaringLimits(shop?.workshop.limits);
  const seed = options.seed ?? session.seed();
  let drill = beginSquaring({
    seed,
    level: options.level,
    limits,
    ...(options.size ? { nominal: options.size } : {}),
  });
  const talk: Conversation = {
    title: trainSays('drill-squaring-drill-level', { seed, level: options.level }),
    picture: (columns, rows, ascii) => squaringPicture(drill, columns, rows, ascii),
    get over() {
      return drill.ended !== undefined;
    },
    help: SQUARING_HELP,
    get prompt() {
      return `${squaringStanding(drill)} `;
    },
    type: (line) => {
      const parsed = parseSquaring(line);
      if ('problem' in parsed) return parsed;
      drill = actSquaring(drill, parsed.action);
      return { says: drill.log.at(-1)!.says };
    },
  };
  await converse(talk, squaringTask(drill), session, io, options.json);
  const score = scoreSquaring(drill);
  if (options.json) io.out(asJson({ score }));
  else sayTo(io, scoreText(score));
  if (drill.log.length === 0) return EXIT.doesNotHold;
  const { points, passed, ended, decisions, readings } = score;
  const code =
    shop &&
    keep(
      shop,
      options.person,
      [
        {
          kind: 'drilled',
          drill: 'squaring',
          seed,
          level: options.level,
          points,
          passed,
          ended,
          decisions,
          readings,
        },
      ],
      session.now(),
      io,
    );
  return code ?? (passed ? EXIT.done : EXIT.doesNotHold);
}

export async function settingOut(
  shop: TrainingShop,
  unit: string,
  light: string,
  options: DrillOptions,
  session: Session,
  io: Io,
): Promise<number> {
  const plan = shop.plan(unit);
  if (!plan.ok) return failed(plan.problems, io);
  const made = setOutTask(plan.value.setOut, light);
  if (!made.ok) return failed(made.problems, io);
  const task = made.value;
  const worked = new Map<string, number>();
  let looked = 0;
  let done = false;
  const next = () => task.lines.find((line) => !worked.has(line.name))?.name;
  const talk: Conversation = {
    title: trainSays('drill-setting-out', { light: task.light, unit: task.unit }),
    get over() {
      return done;
    },
    help: [
      trainSays('drill-name-number-line'),
      trainSays('drill-check-see-first'),
      trainSays('drill-done-hand'),
    ],
    get prompt() {
      return `${next() ?? trainSays('drill-check-or-done')} `;
    },
    type: (line) => {
      if (/^check$/i.test(line)) {
        looked++;
        return { says: setOutCheckText(checkSetOut(task, worked)) };
      }
      if (/^done$/i.test(line)) {
        done = true;
        return { says: [] };
      }
      const parsed = parseSetOutLine(task, line, next());
      if ('problem' in parsed) return parsed;
      worked.set(parsed.name, parsed.value);
      return { says: [] };
    },
  };
  await converse(talk, setOutTaskText(task), session, io, options.json);
  const check = checkSetOut(task, worked);
  const points = Math.max(0, Math.round((100 * check.right) / task.lines.length) - 10 * looked);
  const { firstWrong, ...rest } = check;
  if (options.json)
    io.out(
      asJson({
        score: {
          points,
          looked,
          ...rest,
          ...(firstWrong
            ? {
                firstWrong: {
                  name: firstWrong.trace.name,
                  given: firstWrong.given,
                  value: firstWrong.trace.value,
                  formula: firstWrong.trace.formula,
                  filled: firstWrong.trace.filled,
                  slips: firstWrong.slips,
                },
              }
            : {}),
        },
      }),
    );
  else sayTo(io, [...setOutCheckText(check), trainSays('drill-points', { points })]);
  if (worked.size === 0) return EXIT.doesNotHold;
  const code = keep(
    shop,
    options.person,
    [
      {
        kind: 'drilled',
        drill: 'setout',
        seed: 0,
        unit: task.unit,
        points,
        passed: check.passed && points >= 75,
        ended: check.passed ? 'right' : 'wrong',
        decisions: worked.size,
      },
    ],
    session.now(),
    io,
  );
  return code ?? (check.passed ? EXIT.done : EXIT.doesNotHold);
}

export async function faultFinding(
  shop: TrainingShop,
  unit: string,
  options: DrillOptions & { readonly faults: number },
  session: Session,
  io: Io,
): Promise<number> {
  const plan = shop.plan(unit);
  if (!plan.ok) return failed(plan.problems, io);
  const seed = options.seed ?? session.seed();
  const made = beginFaults(plan.value.route, { seed, faults: options.faults });
  if (!made.ok) return failed(made.problems, io);
  let drill: FaultDrill = made.value;
  const talk: Conversation = {
    title: trainSays('drill-fault-finding', { seed, unit: plan.value.unit.id }),
    get over() {
      return drill.ended;
    },
    help: [
      trainSays('drill-list-every-step'),
      trainSays('drill-check-check-look'),
      trainSays('drill-name-step-say'),
      trainSays('drill-say-how-came'),
      trainSays('drill-give-up-told'),
    ],
    get prompt() {
      return openStep(drill) ? `${trainSays('drill-how-wrong')} ` : '';
    },
    type: (line) => {
      if (/^list$/i.test(line)) return { says: listing(drill) };
      const action = parseFault(line);
      if (!action) return declined('train.action/understood', { line });
      const acted = actFaults(drill, action);
      if ('problem' in acted) return acted;
      drill = acted.drill;
      return { says: acted.says };
    },
  };
  await converse(talk, faultTask(drill), session, io, options.json);
  const score = scoreFaults(drill);
  if (options.json) io.out(asJson({ score }));
  else
    sayTo(io, [
      trainSays(score.passed ? 'points-passed' : 'points-not-passed', { points: String(score.points) }),
      ...score.remarks,
    ]);
  if (drill.log.length === 0) return EXIT.doesNotHold;
  const code = keep(
    shop,
    options.person,
    [
      {
        kind: 'drilled',
        drill: 'faults',
        seed,
        unit: plan.value.unit.id,
        points: score.points,
        passed: score.passed,
        ended: score.found === score.of ? 'found' : 'given-up',
        decisions: score.checks,
      },
    ],
    session.now(),
    io,
  );
  return code ?? (score.passed ? EXIT.done : EXIT.doesNotHold);
}

function parseFault(line: string): FaultAction | undefined {
  const [verb = '', ...rest] = line.split(/\s+/);
  const what = rest.join(' ');
  if (/^check$/i.test(verb) && what !== '') return { do: 'check', check: what };
  if (/^name$/i.test(verb) && what !== '') return { do: 'name', step: what };
  if (/^give\s*up$/i.test(line)) return { do: 'give-up' };
  if (/^\d$/.test(line)) return { do: 'why', choice: Number(line) };
  return undefined;
}

const listing = (drill: FaultDrill): string[] =>
  drill.route.stages.flatMap((stage) => [
    stage.title,
    ...drill.route.steps
      .filter((step) => step.stage === stage.id)
      .flatMap((step) => [`  ${step.id}  ${step.title}`, ...step.checks.map((check) => `      ${check.id}`)]),
  ]);
