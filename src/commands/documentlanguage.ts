/** Documents in another language than English: the program's words, and the procedure's where it has been translated. */
import { isSpoken } from '../base/languages.js';
import { reteller } from '../base/retell.js';
import { teller } from '../base/words.js';
import type { Route } from '../procedure/types.js';
import { DOCUMENT_LANGUAGE, isLearnt, learn } from '../record/telling.js';
import { stateWorded, wordsOf } from '../session/plan.js';
import type { Workshop } from '../store/workshop.js';
import type { UnitState } from '../unit/unitstate.js';
import { TEXTS } from './reader.js';
import type { LoadedUnit } from './unitload.js';

/** What titles and other texts of procedures are called, by language: filled while units are read in it. */
const called = new Map<string, Map<string, string>>();

/** False where the program does not speak it. Figures keep their decimal point: documents are compared, and CSV is read by programs. */
export async function learnLanguage(language: string): Promise<boolean> {
  if (isLearnt(language)) return true;
  if (!isSpoken(language)) return false;
  const [translated, { ALL_KEPT }] = await Promise.all([TEXTS[language](), import('./kept.js')]);
  const texts = (id: string): string | undefined => {
    const found = translated[id];
    return typeof found === 'string' || found === undefined ? found : found[0];
  };
  const tell = teller(language, texts);
  const own = new Map<string, string>();
  called.set(language, own);
  learn(language, { texts, tell, retell: reteller(ALL_KEPT, tell, (text) => named(text, own)) });
  return true;
}

/** The unit's state with its steps in this language; as it is where there is no translation. */
export function stateIn(
  language: string | undefined,
  workshop: Workshop,
  { plan }: Pick<LoadedUnit, 'plan'>,
  state: UnitState,
): UnitState {
  if (language === undefined || language === DOCUMENT_LANGUAGE) return state;
  const route = wordsOf(plan, workshop).route(language);
  if (!route) return state;
  name(language, state.route, route);
  return stateWorded(state, route);
}

/** Also a name with its figure: "mitre, top left 0.1 mm"; and a difference of two. */
function named(text: string, own: ReadonlyMap<string, string>): string | undefined {
  const whole = own.get(text);
  if (whole !== undefined) return whole;
  const both = text.split(MINUS);
  if (both.length === 2) {
    const told = both.map((each) => named(each, own));
    return told.every((each) => each !== undefined) ? told.join(MINUS) : undefined;
  }
  const [, called = '', figure = ''] = WITH_FIGURE.exec(text) ?? [];
  const told = own.get(called);
  return told === undefined ? undefined : told + figure;
}

const MINUS = ' minus ';
const WITH_FIGURE = /^(.*?)( [-+]?\d[\d.]*(?: \([-+]?[\d.]+\))?(?: [^\d ]+)?)$/;

function name(language: string, was: Route, is: Route): void {
  const own = called.get(language);
  if (!own) return;
  const step = new Map(is.steps.map((each) => [each.id, each]));
  const stage = new Map(is.stages.map(({ id, title }) => [id, title]));
  for (const { id, title } of was.stages) own.set(title, stage.get(id) ?? title);
  for (const each of was.steps) {
    const told = step.get(each.id);
    if (!told) continue;
    own.set(each.title, told.title);
    const asks = new Map(told.checks.map((check) => [check.id, check]));
    for (const check of each.checks) {
      own.set(check.ask, asks.get(check.id)?.ask ?? check.ask);
      for (const [i, point] of (check.points ?? []).entries())
        own.set(point.text, asks.get(check.id)?.points?.[i]?.text ?? point.text);
    }
  }
}
