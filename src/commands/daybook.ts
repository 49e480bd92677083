/** `daybook`: what belongs to no one unit: deliveries, a customer's word on a snag, corrective actions, why a limit changed. */
import { isDay } from '../base/dates.js';
import { err, ok, type Problem, problemFactory, problemTold, type Result } from '../base/problem.js';
import { localDay } from '../base/wallclock.js';
import { exceptionsOf } from '../record/exceptions.js';
import { causeOf } from '../record/ledger.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import { appendDaybook } from '../store/daybook.js';
import { realDisk } from '../store/disk.js';
import { pinSources } from '../store/hashed.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { sha256 } from '../unit/chain.js';
import { type DaybookBody, type DaybookEntry, stillCounting } from '../unit/daybook.js';
import { ALONE, RELEASES } from '../unit/people.js';
import type { Level } from '../unit/types.js';
import { daybookOf, unitsOf } from './books.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { MARK, printEntries } from './daybooktext.js';
import { byTheClock, madeNow, ofUnits } from './documents.js';
import { HELP } from './help.js';
import { EXIT, fail, type Io, readOptions, usageOf } from './io.js';
import { chartNow } from './shopfigures.js';
import { loadUnit, named, type UnitName } from './unitload.js';
import { vouchedFor } from './vouched.js';

const raise = problemFactory(COMMAND_MESSAGES);
const raiseRecord = problemFactory(RECORD_MESSAGES);

const OPTIONS = {
  by: { type: 'string' },
  on: { type: 'string' },
  supplier: { type: 'string' },
  customer: { type: 'string' },
  note: { type: 'string' },
  lot: { type: 'string', multiple: true },
  certificate: { type: 'string' },
  snag: { type: 'string' },
  how: { type: 'string' },
  refused: { type: 'boolean' },
  against: { type: 'string' },
  what: { type: 'string' },
  reason: { type: 'string' },
  json: { type: 'boolean' },
} as const;

interface Values {
  readonly [option: string]: string | boolean | string[] | undefined;
}

/** What each kind of entry needs, and from which level on somebody may write it. */
const KINDS: Readonly<
  Record<string, { readonly needs: readonly string[]; readonly words: number; readonly level: Level }>
> = {
  received: { needs: ['supplier', 'note', 'lot'], words: 0, level: ALONE },
  sent: { needs: ['customer', 'note'], words: 500, level: ALONE },
  agreed: { needs: ['snag', 'customer', 'how'], words: 1, level: RELEASES },
  action: { needs: ['against', 'what'], words: 0, level: RELEASES },
  limits: { needs: ['reason'], words: 0, level: RELEASES },
  chart: { needs: ['reason'], words: 1, level: RELEASES },
  strike: { needs: ['reason'], words: 1, level: RELEASES },
};

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.daybook, OPTIONS, { most: 501 });
  if (typeof read === 'number') return read;
  const values: Values = read.values;
  const [word, ...names] = read.positionals;
  const opened = openWorkshop(io.workshop, realDisk, { back: word === undefined });
  if (!opened.ok) return fail(io, opened.problems);
  const workshop = opened.value;
  const kept = daybookOf(workshop);
  if (!kept.ok) return fail(io, kept.problems);
  if (word === undefined) return printEntries(kept.value, workshop, values.json === true, io);
  const kind = KINDS[word];
  if (!kind)
    return fail(io, [raise('command.usage/daybook', { word, usage: usageOf(HELP.daybook) })], EXIT.badInput);
  const wanting = [...kind.needs, 'by'].find(
    (need) => values[need] === undefined || String(values[need]).trim() === '',
  );
  if (wanting !== undefined || names.length > kind.words || (kind.words > 0 && names.length === 0))
    return fail(
      io,
      [
        raise('command.usage/daybook-needs', {
          word,
          needs: [...kind.needs, 'by'].map((need) => `--${need}`),
          usage: usageOf(HELP.daybook),
        }),
      ],
      EXIT.badInput,
    );
  const at = new Date().toISOString();
  const on = typeof values.on === 'string' ? values.on : localDay(at, workshop.zone);
  if (!isDay(on)) return fail(io, [raiseRecord('record.option/date', { name: 'on', name2: on })]);
  if (on > localDay(at, workshop.zone)) return fail(io, [raiseRecord('record.option/future', { day: on })]);
  const body = bodyOf(word, names, values, { on, at }, workshop, kept.value);
  if (!body.ok) return fail(io, body.problems);
  const vouched = await vouchedFor(io, workshop, String(values.by), kind.level);
  if (!vouched.ok) {
    const isNobody = vouched.problems[0]?.id === 'person.unknown';
    return fail(io, vouched.problems, isNobody ? EXIT.badInput : EXIT.doesNotHold);
  }
  if (body.value.kind === 'limits')
    pinSources(realDisk, workshop.root, { limits: workshop.sources.limits.text });
  const bench = process.env.PINCHROD_BENCH ?? workshop.bench;
  const pin = vouched.value.pin !== undefined;
  const wrote = appendDaybook(
    realDisk,
    workshop.root,
    { ...body.value, pin },
    { by: vouched.value.id, at, bench },
  );
  if (!wrote.ok) return fail(io, wrote.problems);
  for (const trouble of wrote.warnings) io.err(problemTold(trouble, io.reader?.tell));
  return printEntries(wrote.value, workshop, values.json === true, io);
}

function bodyOf(
  word: string,
  names: readonly string[],
  values: Values,
  { on, at }: { readonly on: string; readonly at: string },
  workshop: Workshop,
  entries: readonly DaybookEntry[],
): Result<DaybookBody> {
  const text = (option: string): string => String(values[option] ?? '').trim();
  switch (word) {
    case 'received': {
      const certificate = text('certificate');
      return ok({
        kind: 'received',
        supplier: text('supplier'),
        note: text('note'),
        on,
        lots: values.lot as string[],
        ...(certificate === '' ? {} : { certificate }),
      });
    }
    case 'sent': {
      const units = unitsNamed(names, workshop);
      return units.ok
        ? ok({ kind: 'sent', customer: text('customer'), note: text('note'), on, units: units.value })
        : units;
    }
    case 'agreed': {
      const unit = unitsNamed(names, workshop);
      if (!unit.ok) return unit;
      const snag = Number(text('snag'));
      const [of] = unit.value;
      if (unit.value.length !== 1 || !hasSnag(workshop, of!, snag))
        return err(raise('daybook.snag', { unit: names.join(' '), snag: text('snag') }));
      return ok({
        kind: 'agreed',
        unit: of!,
        snag,
        agrees: values.refused !== true,
        customer: text('customer'),
        how: text('how'),
        on,
      });
    }
    case 'action': {
      const against = text('against');
      const known = causesKnown(workshop);
      if (!known.ok) return known;
      if (!known.value.includes(against))
        return err(
          raise('daybook.against', {
            against,
            known: known.value.length === 0 ? '-' : known.value.join('; '),
          }),
        );
      return ok({ kind: 'action', against, what: text('what'), on });
    }
    case 'limits': {
      const limits = sha256(workshop.sources.limits.text);
      const last = stillCounting(entries).findLast((entry) => entry.kind === 'limits');
      if (last?.kind === 'limits' && last.sources.limits === limits)
        return err(raise('daybook.same-limits', {}));
      return ok({ kind: 'limits', sources: { limits }, reason: text('reason') });
    }
    case 'chart': {
      const found = chartNow(workshop, names[0]!, at);
      if (!found.ok) return found;
      return ok({ kind: 'chart', ...found.value, reason: text('reason') });
    }
    default: {
      const [mark = ''] = names;
      const found = stillCounting(entries).filter(
        ({ hash }) => mark.length >= MARK && hash.startsWith(mark.toLowerCase()),
      );
      return found.length === 1
        ? ok({ kind: 'struck', of: found[0]!.hash, reason: text('reason') })
        : err(raise('daybook.entry', { mark }));
    }
  }
}

/** Units and whole jobs. */
function unitsNamed(names: readonly string[], workshop: Workshop): Result<UnitName[]> {
  const units: UnitName[] = [];
  const problems: Problem[] = [];
  for (const name of names) {
    const found = named(name, workshop, realDisk);
    if (!found.ok) problems.push(...found.problems);
    else units.push(...(found.value.kind === 'unit' ? [found.value.name] : found.value.units));
  }
  return problems.length > 0
    ? err(...problems)
    : ok([...new Map(units.map(({ job, unit }) => [`${job}/${unit}`, { job, unit }])).values()]);
}

function hasSnag(workshop: Workshop, name: UnitName, snag: number): boolean {
  const unit = loadUnit(realDisk, workshop, name, new Date().toISOString());
  return unit.ok && unit.value.state.snags.some(({ raised }) => raised.n === snag);
}

/** Causes, and checks without their light, of all nonconformities so far. */
function causesKnown(workshop: Workshop): Result<readonly string[]> {
  const made = madeNow(workshop, false);
  const loaded = unitsOf(workshop, undefined, made.at);
  if (!loaded.ok) return loaded;
  const units = loaded.value;
  const { records } = ofUnits(workshop, units, byTheClock(workshop, units, made, 'html'), { asked: {} });
  const causes = new Set(records.flatMap((view) => exceptionsOf(view).map(causeOf)));
  return ok([...causes].filter((cause) => cause !== '').sort());
}
