/** Lots of material and numbers of pieces: what is accepted at goods-in, and what an answer may name. */
import { type DateForm, looksLikeDate, readDate } from '../base/dates.js';
import { gs1Date, readGs1 } from '../base/gs1.js';
import type { Problem } from '../base/problem.js';
import type { RouteCheck } from '../procedure/types.js';
import { type BuildRaise, type BuildRefusal, unitProblem } from './messages.js';
import type { Lot, LotUsed } from './types.js';
import type { UnitState } from './unitstate.js';

/** What a typed or scanned text says of a lot. */
export interface LotRead {
  readonly code: string;
  readonly expires?: string;
}

/**
 * `PR-77`, `PR-77 2027-03-31`, or a GS1 element string. A date after the code is never part of the code.
 * @param serial the check asks for a piece's own number (AI 21) rather than its lot (AI 10)
 */
export function readLot(
  text: string,
  { serial, dates, now }: { readonly serial: boolean; readonly dates: DateForm; readonly now: string },
): LotRead | { readonly problem: Problem } {
  const scanned = readGs1(text);
  if (scanned) {
    const code = serial ? (scanned.get('21') ?? scanned.get('10')) : scanned.get('10');
    if (code === undefined) return refusal(serial ? 'build.lot-code/number' : 'build.lot-code');
    const date = scanned.get('17');
    const expires = date === undefined ? undefined : gs1Date(date, now);
    if (date !== undefined && expires === undefined) return refusal('build.lot-expiry-bad/ai', { date });
    return { code, ...(expires === undefined ? {} : { expires }) };
  }
  const [, code, last] = /^(.*\S)\s+(\S+)$/s.exec(text) ?? [];
  if (code === undefined || last === undefined || !looksLikeDate(last)) return { code: text };
  const expires = readDate(last, dates);
  if (expires === undefined)
    return dates === 'YYYY-MM-DD'
      ? refusal('build.lot-expiry-bad', { given: last })
      : refusal('build.lot-expiry-bad/form', { given: last, form: dates });
  return { code, expires };
}

const refusal = <K extends BuildRefusal>(key: K, ...given: BuildRaise<K>) => ({
  problem: unitProblem(key, ...given),
});

const sameCode = (a: string, b: string): boolean => a.toUpperCase() === b.toUpperCase();

/** Each lot or piece that counts now in this unit, as last named there. */
export function lotsOf(unit: UnitState): LotUsed[] {
  const lots = new Map<string, LotUsed>();
  const done = new Set(
    [...unit.steps.values()].flatMap(({ step, status }) => (status === 'done' ? [step.id] : [])),
  );
  const counts = new Map(
    [...unit.steps.values()].flatMap(({ checks }) =>
      checks.flatMap(({ answered, holds }) => (answered ? [[answered.n, holds] as const] : [])),
    ),
  );
  const corrected = new Set(unit.events.flatMap((event) => (event.kind === 'corrected' ? [event.of] : [])));
  for (const event of unit.events) {
    if (event.kind !== 'answered' || !event.lot || corrected.has(event.n)) continue;
    const { material, code, expires, serial } = event.lot;
    const key = serial
      ? `${material}/${code}/${event.lot.item ?? ''}`
      : `${material}/${code}/${expires ?? ''}`;
    const before = lots.get(key);
    const holds = counts.get(event.n) === true;
    const accepted =
      holds && ((event.lot.accepted === true && done.has(event.step)) || event.lot.acceptedBy !== undefined);
    // A piece whose answer no longer counts is free for another place.
    if (serial && !holds) continue;
    lots.set(key, {
      material,
      code,
      ...(expires === undefined ? {} : { expires }),
      at: event.at,
      ...(accepted || before?.accepted ? { accepted: true } : {}),
      ...(serial ? { serial: true, job: unit.job, unit: unit.unit } : {}),
      ...(serial && event.lot.item !== undefined ? { item: event.lot.item } : {}),
    });
  }
  return [...lots.values()];
}

/** The state's own lots before those of other units; its own are known better. */
export function lotsKnown(state: UnitState, shop: readonly LotUsed[]): readonly LotUsed[] {
  return [
    ...lotsOf(state),
    ...shop.filter((lot) => !(lot.serial && lot.job === state.job && lot.unit === state.unit)),
  ];
}

/** Whether goods-in accepts this material in this unit's procedure; without that, any lot may be named. */
const isAcceptedSomewhere = (state: UnitState, material: string): boolean =>
  state.route.steps.some(({ checks }) => checks.some((check) => check.lot === material && check.accepts));

/** A material that goes off: some check takes it only with its date, and then no other takes it without. */
const isDated = (state: UnitState, material: string): boolean =>
  state.route.steps.some(({ checks }) => checks.some((check) => check.lot === material && check.dated));

/** What the lot that a text names is held against. */
export interface LotAsked {
  readonly check: RouteCheck;
  /** The light or divider of the step. */
  readonly item: string | undefined;
  readonly lots: readonly LotUsed[];
  /** By the workshop's calendar. */
  readonly today: string;
  /** Somebody who may has accepted it on the spot. */
  readonly acceptedBy: string | undefined;
}

/** The lot as the journal will name it, or why not. */
export function lotNamed(
  state: UnitState,
  read: LotRead,
  asked: LotAsked,
): Lot | { readonly problem: Problem } {
  const { check, item, today, acceptedBy } = asked;
  const material = check.lot!;
  const known = asked.lots.filter((lot) => lot.material === material && sameCode(lot.code, read.code));
  if (check.serial) return pieceNamed(state, read, asked, known);
  const accepted = known.filter((lot) => lot.accepted);
  const fits = (among: readonly LotUsed[]) =>
    read.expires === undefined ? among : among.filter(({ expires }) => expires === read.expires);
  const dates = [...new Set(fits(accepted).flatMap(({ expires }) => expires ?? []))];
  if (read.expires === undefined && dates.length > 1)
    return refusal('build.lot-which', {
      count: dates.length,
      code: read.code,
      material,
      dates: dates.toSorted(),
      first: dates[0]!,
    });
  const one = fits(accepted)[0] ?? fits(known)[0];
  const expires = read.expires ?? one?.expires;
  const code = one?.code ?? read.code;
  if (isDated(state, material) && expires === undefined) {
    const other = asked.lots.find((lot) => lot.material !== material && sameCode(lot.code, read.code));
    return known.length === 0 && other
      ? refusal('build.lot-needs-date/other', { code: other.code, other: other.material, material })
      : refusal('build.lot-needs-date', { code, material });
  }
  if (expires !== undefined && expires < today)
    return refusal('build.lot-expired', { code, material, expires });
  if (
    !check.accepts &&
    acceptedBy === undefined &&
    fits(accepted).length === 0 &&
    isAcceptedSomewhere(state, material)
  )
    return refusal('build.lot-not-accepted', { code, material });
  return {
    material,
    code,
    ...(expires === undefined ? {} : { expires }),
    ...(check.accepts ? { accepted: true } : {}),
    ...(acceptedBy === undefined ? {} : { acceptedBy }),
    ...(item === undefined ? {} : { item }),
  };
}

/** A piece has one place: the unit and the light that it was accepted for. */
function pieceNamed(
  state: UnitState,
  { code: typed, expires }: LotRead,
  asked: LotAsked,
  known: readonly LotUsed[],
): Lot | { readonly problem: Problem } {
  const { check, item, acceptedBy } = asked;
  const material = check.lot!;
  const place = (unit: string, light: string | undefined) => [unit, light ?? ''].join(' ').trim();
  const here = place(state.unit, item);
  const isHere = (lot: LotUsed) => lot.job === state.job && lot.unit === state.unit && lot.item === item;
  const elsewhere = known.find((lot) => lot.serial && !isHere(lot));
  const code = known[0]?.code ?? typed;
  if (elsewhere)
    return refusal('build.piece-elsewhere', {
      material,
      code,
      unit: place(
        elsewhere.job === state.job ? elsewhere.unit! : `${elsewhere.job}/${elsewhere.unit}`,
        elsewhere.item,
      ),
      here,
    });
  const other = asked.lots.find(
    (lot) =>
      lot.material === material && lot.serial && lot.accepted && isHere(lot) && !sameCode(lot.code, typed),
  );
  if (other && !check.accepts)
    return refusal('build.piece-elsewhere/was', { material, code: other.code, here, code2: code });
  const accepted = known.some((lot) => lot.accepted);
  if (!check.accepts && !accepted && acceptedBy === undefined && isAcceptedSomewhere(state, material))
    return refusal('build.lot-not-accepted/was', { material, code });
  return {
    material,
    code,
    serial: true,
    ...(expires === undefined ? {} : { expires }),
    ...(check.accepts ? { accepted: true } : {}),
    ...(acceptedBy === undefined ? {} : { acceptedBy }),
    ...(item === undefined ? {} : { item }),
  };
}

/** The lots that may be taken at a check without typing, the last one used first. Never a piece's own number. */
export function lotsOffered(
  state: UnitState,
  check: RouteCheck,
  shop: readonly LotUsed[],
  snagged: readonly string[],
  today: string,
): readonly LotUsed[] {
  if (check.lot === undefined || check.serial) return [];
  const barred = new Set([
    ...snagged,
    ...state.snags.flatMap(({ open, raised }) =>
      open && raised.touches.lot !== undefined ? [raised.touches.lot] : [],
    ),
  ]);
  const needed = isAcceptedSomewhere(state, check.lot) && !check.accepts;
  const good = lotsKnown(state, shop).filter(
    ({ material, code, expires, accepted }) =>
      material === check.lot &&
      (accepted || !needed) &&
      (expires !== undefined ? expires >= today : !check.dated) &&
      !barred.has(code),
  );
  const latest = new Map<string, LotUsed>();
  for (const lot of good.toSorted((a, b) => (a.at < b.at ? -1 : 1)))
    latest.set(`${lot.code}/${lot.expires ?? ''}`, lot);
  return [...latest.values()].toSorted((a, b) => (a.at < b.at ? 1 : -1)).slice(0, 5);
}
