/** What is wrong with the translations of a workshop's procedures, and with the languages that its people read. */
import { type Problem, raiser } from '../../ground/problem.js';
import { textProblems } from '../../procedure/lint/texts.js';
import { PEOPLE_FILE, type Workshop } from '../../store/workshop.js';
import { COMMAND_MESSAGES } from '../commandmessages.js';

const raise = raiser(COMMAND_MESSAGES);

/** `broken`: the bench shows the procedure's own language instead. */
export function languageProblems(workshop: Workshop): { broken: Problem[]; unwise: Problem[] } {
  const broken: Problem[] = [];
  const unwise: Problem[] = [];
  const { names } = workshop.translations;
  for (const { procedure, language, file } of names) {
    const own = workshop.procedures.get(procedure);
    if (!own.ok) {
      if (!workshop.procedures.names.includes(procedure))
        broken.push(
          raise('lint.translation-alone', `There is no procedure "${procedure}" for it to translate.`, {
            file,
          }),
        );
      continue;
    }
    const made = workshop.translations.of(own.value.value, language);
    if (!made) continue;
    if (!made.ok) broken.push(...made.problems);
    // Rules of language hold for each; what is about steps and not words, the procedure's own lint has said.
    else
      unwise.push(...made.warnings, ...textProblems(made.value).filter(({ place }) => place?.file === file));
  }
  const spoken = new Set([
    ...names.map(({ language }) => language),
    ...workshop.procedures.names.flatMap((name) => {
      const own = workshop.procedures.get(name);
      return own.ok ? [own.value.value.language] : [];
    }),
  ]);
  for (const { name, language } of workshop.rules.people)
    if (language !== undefined && !spoken.has(language))
      unwise.push(
        raise('lint.language-none', `${name} reads "${language}", in which there is no procedure.`, {
          file: PEOPLE_FILE,
        }),
      );
  return { broken, unwise };
}
