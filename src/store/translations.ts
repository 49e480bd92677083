/** Translations of procedures: `procedures/casement.de.yaml` beside `procedures/casement.yaml`. Read on demand. */
import { err, type Result } from '../base/problem.js';
import type { Procedure } from '../procedure/model.js';
import { translateProcedure } from '../procedure/translation.js';
import { type Disk, storeProblem } from './disk.js';
import { listWorkshopFiles, readWorkshopFile } from './filecollection.js';

interface TranslationName {
  readonly procedure: string;
  /** ISO 639: `de`. */
  readonly language: string;
  readonly file: string;
}

export interface ProcedureTranslations {
  /** By file name only; the files are not read. */
  readonly names: readonly TranslationName[];
  /** A translated procedure, read once; undefined if there is no such translation. Warnings list missing texts. */
  of(procedure: Procedure, language: string): Result<Procedure> | undefined;
  /** Its text; undefined if there is none, or it cannot be read. */
  text(procedure: string, language: string): string | undefined;
}

const NAMED = /^(.+)\.([a-z]{2,3})$/;
export const isTranslation = (name: string): boolean => NAMED.test(name);

export function translations(disk: Disk, root: string, endings: readonly string[]): ProcedureTranslations {
  const names = listWorkshopFiles(disk, root, 'procedures', endings).files.flatMap(({ name, file }) => {
    const [, procedure, language] = NAMED.exec(name) ?? [];
    return procedure === undefined || language === undefined ? [] : [{ procedure, language, file }];
  });
  const made = new WeakMap<Procedure, Map<string, Result<Procedure>>>();
  const read = (procedure: Procedure, { file, language }: TranslationName): Result<Procedure> => {
    const source = readWorkshopFile(disk, root, file);
    if (!source.ok) return source;
    const translated = translateProcedure(source.value, procedure);
    if (translated.ok && translated.value.language !== language)
      return err(
        storeProblem(
          'workshop.name/file',
          { language: translated.value.language, language2: language },
          {
            file,
          },
        ),
      );
    return translated;
  };
  return {
    names,
    text(procedure, language) {
      const found = names.find((each) => each.procedure === procedure && each.language === language);
      const source = found && readWorkshopFile(disk, root, found.file);
      return source?.ok ? source.value.text : undefined;
    },
    of(procedure, language) {
      const found = names.find((each) => each.procedure === procedure.name && each.language === language);
      if (!found) return undefined;
      const kept = made.get(procedure) ?? new Map<string, Result<Procedure>>();
      made.set(procedure, kept);
      const before = kept.get(language);
      if (before) return before;
      const result = read(procedure, found);
      kept.set(language, result);
      return result;
    },
  };
}
