import { describe, expect, it } from 'vitest';
import { lintProcedure } from '../../src/procedure/lint.js';
import { makeRoute } from '../../src/procedure/route.js';
import { translateProcedure } from '../../src/procedure/translation.js';
import { casement, idsOf, must, sourceOf, units } from './samples.js';

const source = sourceOf('procedures/casement.de.yaml');
const changed = (was: string, becomes: string) => {
  expect(source.text).toContain(was);
  return translateProcedure({ ...source, text: source.text.replace(was, becomes) }, casement);
};
const warnings = (was: string, becomes: string): string[] => {
  const read = changed(was, becomes);
  return read.ok ? read.warnings.map(({ id, text }) => `${id} ${text}`) : ['refused'];
};

describe('the German casement procedure', () => {
  const read = translateProcedure(source, casement);

  it('is complete', () => {
    expect(idsOf(read)).toEqual([]);
    expect(read.ok && read.warnings.map(({ text }) => text)).toEqual([]);
  });

  it('keeps to the same rules of language as the first', () => {
    expect(lintProcedure(must(read)).map(({ id, text }) => `${id} ${text}`)).toEqual([]);
  });

  it('makes the same routes in other words', () => {
    for (const unit of units.values()) {
      const english = must(makeRoute(casement, unit));
      const german = must(makeRoute(must(read), unit));
      expect(german.steps.map(({ id }) => id)).toEqual(english.steps.map(({ id }) => id));
      german.steps.forEach((step, i) => {
        const other = english.steps[i]!;
        expect(step.title, step.id).not.toBe(other.title);
        expect(step.why).not.toBe(other.why);
        expect(step.rests).toEqual(other.rests);
        expect(step.makes).toEqual(other.makes);
        step.checks.forEach((check, c) => {
          const { ask, how, choices, points, ...rest } = check;
          const {
            ask: otherAsk,
            how: otherHow,
            choices: otherChoices,
            points: otherPoints,
            ...otherRest
          } = other.checks[c]!;
          expect(points?.map(({ text: _, ...point }) => point)).toEqual(
            otherPoints?.map(({ text: _, ...point }) => point),
          );
          expect(rest).toEqual(otherRest);
          expect(ask, check.id).not.toBe(otherAsk);
          expect(how === undefined).toBe(otherHow === undefined);
          expect(choices?.map(({ id, pass }) => [id, pass])).toEqual(
            otherChoices?.map(({ id, pass }) => [id, pass]),
          );
        });
      });
    }
  });
});

describe('a translation', () => {
  it('says which step, check, choice, hold, stage and caution it lacks', () => {
    expect(warnings('  order.papers:\n', '  order.paper:\n').map((text) => text.split(' ')[0])).toEqual([
      'procedure.translation-stray',
      'procedure.translation-lacks',
    ]);
    expect(warnings('      revision: ', '      revisions: ').join()).toContain(
      'check "order.papers/revision"',
    );
    expect(warnings('          opening: Maße der Maueröffnungen\n', '').join()).toContain('choice "opening"');
    expect(warnings('  H5: Rechtwinklig und eben vor dem Aushärten\n', '').join()).toContain('hold "H5"');
    expect(warnings('  saw: Säge einrichten, Erststücke\n', '').join()).toContain('stage "saw"');
    expect(
      warnings(
        '    caution: Nicht in das Stanzwerkzeug greifen. Butzen nur bei ruhender Stanze entfernen. Augen und Gehör schützen.\n',
        '',
      ).join(),
    ).toContain('caution of step "machine.frame-slots"');
    expect(warnings('        - Nach Augenmaß\n', '').join()).toContain('question of step "glaze.set"');
    expect(warnings('version: "1.3"', 'version: "0.9"').join()).toContain('version 0.9');
    expect(warnings('deferral: ', '# ').join()).toContain('deferral');
    expect(warnings('  opens in: öffnet nach innen\n', '').join()).toContain('phrase "opens in"');
    expect(warnings('  opens in: ', '  opens up: ').join()).toContain('no "opens up"');
    expect(warnings('          unclear: ', '          unclean: ').join()).toContain('no "unclean"');
  });

  it('is told of at its own place in the file', () => {
    const lineOf = (text: string) => source.text.slice(0, source.text.indexOf(text)).split('\n').length;
    const places = (was: string, becomes: string) => {
      const read = changed(was, becomes);
      return read.ok ? read.warnings.map(({ id, place }) => [id, place?.file, place?.line]) : [];
    };
    const stray = (was: string, becomes: string) =>
      expect(places(was, becomes)).toContainEqual([
        'procedure.translation-stray',
        'procedures/casement.de.yaml',
        lineOf(was),
      ]);
    stray('  H5: Recht', '  H55: Recht');
    stray('  saw: Säge einrichten', '  sow: Säge einrichten');
    stray('      range: Liegen', '      ranges: Liegen');
    expect(places('version: "1.3"', 'version: "0.9"')).toEqual([
      ['procedure.translation-of', 'procedures/casement.de.yaml', 3],
    ]);
  });

  it('says which number it lost', () => {
    expect(warnings('auf {mm(divider.length)} schneiden', 'auf Länge schneiden')).toEqual([
      'procedure.translation-number Step "cut.divider": {mm(divider.length)} is not in the translated text.',
    ]);
    expect(warnings('Es wiegt {kg(unit.mass)} ({unit.lift}). Beim', 'Es ist schwer. Beim')).toEqual([
      'procedure.translation-number The caution of step "final.size": {kg(unit.mass)} is not in the translated text.',
    ]);
  });

  it('shows the first language where it lacks a text', () => {
    const read = must(changed('  order.hand:\n', '  order.hands:\n'));
    const step = read.stages[0]!.steps[1]!;
    expect(step.title.text).toBe(casement.stages[0]!.steps[1]!.title.text);
  });

  it('says how many steps nobody has reviewed beside this version, and sets the original beside their cautions', () => {
    const line = 'reviewed: { by: Lena Brandt (invented), version: "1.3" }';
    expect(warnings(line, '# reviewed by nobody')).toEqual([
      expect.stringMatching(/^procedure\.translation-unreviewed (\d+) of \1 steps were reviewed by nobody: /),
    ]);
    expect(warnings(line, line.replace('1.3', '1.1'))).toEqual([
      expect.stringMatching(/^procedure\.translation-changed .* reviewed beside another version/),
    ]);
    const cautions = (reviewed: string) =>
      must(makeRoute(must(changed(line, reviewed)), [...units.values()][0]!)).steps.flatMap(
        ({ caution }) => caution ?? [],
      );
    const deferral = casement.deferral.text;
    const own = must(makeRoute(casement, [...units.values()][0]!)).steps.flatMap(
      ({ caution }) => caution?.replace(` ${deferral}`, '') ?? [],
    );
    expect(own.length).toBeGreaterThan(3);
    const [read, unread] = [cautions(line), cautions('# none')];
    for (const [i, original] of own.entries()) {
      expect(read[i]).not.toContain(original);
      expect(unread[i]).toContain(`(${original})`);
      expect(unread[i]).toContain(`(${deferral})`);
    }
  });

  it('is refused with a wrong formula, or for another procedure', () => {
    const bad = changed('auf {mm(divider.length)} schneiden', 'auf {mm(divider.breite)} schneiden');
    expect(idsOf(bad)).toEqual(['formula.type']);
    const line = source.text
      .slice(0, source.text.indexOf('auf {mm(divider.length)} schneiden'))
      .split('\n').length;
    expect(bad.ok ? undefined : bad.problems[0]!.place).toMatchObject({ line });
    expect(idsOf(changed('procedure: casement', 'procedure: door'))).toEqual(['procedure.translation-of']);
  });
});
