/** The open unit's steps in the languages that the workshop translated its procedure into. */
import { inLanguage, routeInLanguage } from '../../procedure/inlanguage.js';
import type { Route } from '../../procedure/types.js';
import type { Workshop } from '../../store/workshop.js';
import { contextsOf } from '../../window/contextof.js';
import type { Words } from '../ports.js';
import type { Plan } from './plan.js';

/** The same answer as long as unit and workshop are the same. */
export function wordsOf(plan: Plan, workshop: Workshop): Words {
  const before = made.get(plan);
  if (before?.workshop === workshop) return before.words;
  const { procedure } = plan.from;
  const routes = new Map<string, Route | undefined>();
  const words: Words = {
    own: procedure.language,
    others: workshop.translations.names
      .filter((each) => each.procedure === procedure.name && each.language !== procedure.language)
      .map(({ language }) => language),
    route(language) {
      if (!routes.has(language)) routes.set(language, told(plan, workshop, language));
      return routes.get(language);
    },
  };
  made.set(plan, { workshop, words });
  return words;
}

const made = new WeakMap<Plan, { readonly workshop: Workshop; readonly words: Words }>();

/** Undefined where there is no translation that can be used: `lint` says what is wrong with it. */
function told({ from, setOut, route }: Plan, workshop: Workshop, language: string): Route | undefined {
  const current = workshop.procedures.get(from.procedure.name);
  if (!current.ok) return undefined;
  const translated = workshop.translations.of(current.value.value, language);
  if (!translated?.ok) return undefined;
  const procedure = inLanguage(from.procedure, current.value.value, translated.value);
  const worded = routeInLanguage(route, procedure, contextsOf(setOut));
  return worded.ok ? worded.value : undefined;
}
