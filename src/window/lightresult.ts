import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { type Message, Several } from '../base/words.js';
import type { LightItem } from './geometry.js';
import { wholeThickness } from './glass.js';
import { handleSide, sentenceOf } from './handing.js';
import type { PlacedMarks } from './marks.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { Numbers } from './numbers.js';
import type { PackerDraft } from './packers.js';
import type { DraftPart } from './parts.js';
import type { ProfileSet } from './profileset.js';
import { sizesOf } from './sheet.js';
import type { LightSetOut, Packer, Rect } from './types.js';
import { windowWords } from './words.js';

const raise = problemFactory(WINDOW_MESSAGES);

interface Found {
  readonly gear: Gear | undefined;
  readonly stay: Stay | undefined;
  readonly hinges: Hinges | undefined;
  readonly parts: readonly DraftPart[];
  readonly marks: PlacedMarks;
  readonly packers: readonly PackerDraft[];
  readonly problems: Problem[];
}

export function lightResult(set: ProfileSet, numbers: Numbers, light: LightItem, found: Found): LightSetOut {
  const { sheet, id, kind, hinge, boxes, makeup } = light;
  const get = (group: string, field: string): number => sheet.get(group, field);
  const opening = kind !== 'fixed';
  const side = hinge && handleSide(hinge);
  const own = found.parts.filter(({ item }) => item === id);
  const addonPart = side && own.find(({ seat }) => seat === `${id}.addon.${side}`);
  // A sash may hang straight in the frame: its keeps are then on whatever bounds the light.
  const hasAddon = own.some(({ seat }) => seat?.startsWith(`${id}.addon.`));
  const keepMarks = hasAddon
    ? (found.marks.byPart.get(addonPart?.id ?? '') ?? [])
    : [...found.marks.byPart.values()].flat().filter(({ item }) => item === id);
  const handleOnSash = get('handle', 'on_sash');
  const rings: Record<string, Rect> = Object.fromEntries(boxes);
  return {
    id,
    kind,
    ...(hinge && { hinge }),
    opens_in: light.opensIn,
    sizes: sizesOf(set, light.scope, sheet),
    sentence: sentenceOf(kind, hinge, light.opensIn, set.file.product?.light),
    box: boxes.get('sight')!,
    sight: { w: get('sight', 'w'), h: get('sight', 'h') },
    rebate: rebateIn('rebate'),
    addon: hasAddon
      ? { w: get('addon', 'w'), h: get('addon', 'h'), diagonal: get('addon', 'diagonal') }
      : null,
    sash: opening
      ? {
          w: get('sash', 'w'),
          h: get('sash', 'h'),
          diagonal: get('sash', 'diagonal'),
          mass_kg: get('sash', 'mass'),
          rebate: rebateIn('sash_rebate'),
          box: boxes.get('sash')!,
        }
      : null,
    glass: makeup
      ? {
          w: get('glass', 'w'),
          h: get('glass', 'h'),
          thickness: wholeThickness(makeup),
          area_m2: get('glass', 'area'),
          mass_kg: get('glass', 'mass'),
          title: makeup.title || light.glass,
          box: boxes.get('glass')!,
        }
      : null,
    beads: own.filter((part) => part.kind === 'bead').map(({ length, quantity }) => ({ length, quantity })),
    handle:
      opening && set.file.hardware.handle
        ? { on_sash: handleOnSash, on_addon: hasAddon ? handleOnAddon() : null }
        : null,
    keeps: keepMarks.filter((mark) => mark.kind === 'keep').map(({ at }) => at),
    stay: found.stay?.name ?? null,
    hinges: found.hinges ? { name: found.hinges.name, count: found.hinges.at.length } : null,
    near_limit: found.stay?.near ?? found.hinges?.near ?? false,
    packers: packersPlaced(light, numbers, found),
    packing: set.file.packers[kind].says,
    handle_side: side ?? null,
    gear: found.gear?.name || null,
    stay_length: found.stay?.length ?? 0,
    stay_uses: (found.stay ?? found.hinges)?.uses.map(({ says }) => says) ?? [],
    cover: get('glass', 'cover'),
    clearance: get('glass', 'clearance'),
    glass_name: light.glass,
    safety: makeup?.safety ?? false,
    rings,
  };

  function rebateIn(group: string): { w: number; h: number } | null {
    return makeup ? { w: get(group, 'w'), h: get(group, 'h') } : null;
  }

  /** Across the closing gap: same place in the window, measured from the add-on piece's end. Never mirrored. */
  function handleOnAddon(): number {
    const sash = boxes.get('sash')!;
    const addon = boxes.get('addon')!;
    return side === 'bottom' ? sash.x + handleOnSash - addon.x : sash.y + handleOnSash - addon.y;
  }
}

function packersPlaced(light: LightItem, numbers: Numbers, { packers, marks, problems }: Found): Packer[] {
  const glass = light.boxes.get('glass');
  if (!glass) return [];
  return packers.map(({ row, nominal, use, edge, length, thickness, glassStart, name, why }): Packer => {
    const placed = marks.rows.get(row)?.marks[0]?.at ?? nominal;
    const reason = marks.packers.get(row);
    const centre = placed - glassStart;
    const ruled = nominal - glassStart;
    if (reason === undefined) numbers.made(name, centre, 'mm', why);
    else {
      numbers.made(`${name}.by_rule`, ruled, 'mm', why);
      const shift = numbers.sum`${`${name}.by_rule`} + ${centre - ruled}`;
      numbers.made(name, centre, 'mm', shift, reason);
    }
    const size = edge === 'bottom' || edge === 'top' ? glass.w : glass.h;
    if (centre - length / 2 < -1e-6 || centre + length / 2 > size + 1e-6)
      problems.push(
        raise('setout.off-part', {
          light: light.id,
          use,
          length,
          at: Math.round(centre * 10) / 10,
          size: Math.round(size * 10) / 10,
        }),
      );
    const moved = reason === undefined ? {} : { moved_from: ruled, reason };
    return { use, edge, centre, length, thickness, ...moved };
  });
}

export interface Gear {
  readonly name: string;
  /** Locked positions of the cams relative to the handle, mm along the sash member. */
  readonly locks: readonly number[];
}

/** Sets `handle.on_sash` on the sheet and returns the gear for the member that carries the handle. */
export function gearOf(
  set: ProfileSet,
  numbers: Numbers,
  light: LightItem,
  problems: Problem[],
): Gear | undefined {
  const { handle, gears } = set.file.hardware;
  if (!handle) {
    if (light.handleAt !== undefined)
      problems.push(raise('order.no-handle', { light: light.id, set: set.title }));
    return undefined;
  }
  const { sheet, id } = light;
  const name = `handle.${id}.on_sash`;
  if (light.handleAt === undefined) {
    const text = handle.on_sash;
    sheet.known('handle', 'on_sash', sheet.named(name, text, 'mm'));
  } else {
    numbers.fromJob(name, light.handleAt);
    sheet.known('handle', 'on_sash', light.handleAt);
  }
  const at = sheet.get('handle', 'on_sash');
  const least = sheet.named(`handle.${id}.least`, handle.least, 'mm');
  const most = sheet.named(`handle.${id}.most`, handle.most, 'mm');
  if (at < least - 1e-6 || at > most + 1e-6)
    problems.push(
      raise('order.limit', {
        id,
        at: mmText(at),
        least: mmText(least),
        most: mmText(most),
        set: profileSource(set, handle.source),
      }),
    );
  if (!gears) return undefined;
  const rail = light.kind === 'top-hung' ? sheet.get('sash', 'w') : sheet.get('sash', 'h');
  const end = sheet.value(gears.end);
  const suits = gears.list.filter(({ from, to }) => rail >= from - 1e-6 && rail <= to + 1e-6);
  const gear = suits.find(({ locks }) =>
    locks.every((text) => {
      const cam = at + sheet.value(text);
      return cam >= end - 1e-6 && cam <= rail - end + 1e-6;
    }),
  );
  if (!gear) {
    const given = { id, set: set.title, rail: mmText(rail), source: profileSource(set, gears.source) };
    problems.push(
      suits.length === 0
        ? raise('order.gear', {
            ...given,
            gears: gears.list.map(({ name: n, from, to }) => `${n} ${from}–${to}`),
          })
        : raise('order.gear/cams', {
            ...given,
            end: mmText(end),
            at: mmText(at),
            gears: suits.map(({ name: n }) => n),
          }),
    );
    return { name: '', locks: [] };
  }
  return {
    name: gear.name,
    locks: gear.locks.map((text, i) => sheet.named(`lock.${id}.${i + 1}`, text, 'mm')),
  };
}

export interface Stay {
  readonly name: string;
  readonly length: number;
  readonly clearLoss: number | undefined;
  /** Each limit checked, and the share of it used. */
  readonly uses: readonly { readonly says: Message; readonly share: number }[];
  readonly near: boolean;
}

/**
 * The stay for a sash. Candidates are the stays that take it within every limit of the chart; picks the one whose
 * length is within the preferred share of the controlling size, or failing that the closest to it.
 */
export function stayOf(
  set: ProfileSet,
  light: LightItem,
  problems: Problem[],
  warnings: Problem[],
): Stay | undefined {
  const { stays } = set.file.hardware;
  if (!stays) return undefined;
  const kind = light.kind as 'top-hung' | 'side-hung';
  const [w, h] = [light.sheet.get('sash', 'w'), light.sheet.get('sash', 'h')];
  const mass = light.sheet.get('sash', 'mass');
  const [controlling, other] = kind === 'top-hung' ? [h, w] : [w, h];
  const [along, across] = (
    kind === 'top-hung' ? (['height', 'width'] as const) : (['width', 'height'] as const)
  ).map((side) => windowWords(side));
  const fits: Stay[] = [];
  const refused: Message[] = [];
  for (const stay of stays.chart) {
    const range = stay[kind];
    if (!range) continue;
    const broken: Message[] = [];
    if (controlling < range.from - 1e-6)
      broken.push(windowWords('stay-under', { side: along!, limit: range.from }));
    if (controlling > range.to + 1e-6)
      broken.push(windowWords('stay-over', { side: along!, limit: range.to }));
    if (range.most_other !== undefined && other > range.most_other + 1e-6)
      broken.push(windowWords('stay-over', { side: across!, limit: range.most_other }));
    if (mass > range.kg + 1e-9) broken.push(windowWords('stay-mass', { limit: range.kg }));
    if (broken.length > 0) {
      refused.push(windowWords('stay-refused', { stay: stay.name, why: broken }));
      continue;
    }
    const uses = [
      {
        says: windowWords('stay-uses', { side: along!, size: mmText(controlling), limit: range.to }),
        share: controlling / range.to,
      },
      ...(range.most_other === undefined
        ? []
        : [
            {
              says: windowWords('stay-uses', { side: across!, size: mmText(other), limit: range.most_other }),
              share: other / range.most_other,
            },
          ]),
      {
        says: windowWords('stay-uses-mass', { mass: mass.toFixed(1), limit: range.kg }),
        share: mass / range.kg,
      },
    ];
    fits.push({
      name: stay.name,
      length: stay.length,
      clearLoss: stay.clear_loss,
      uses,
      near: uses.some(({ share }) => share > stays.near + 1e-9),
    });
  }
  if (fits.length === 0) {
    const given = {
      light: light.id,
      kind: windowWords(kind),
      w: mmText(w),
      h: mmText(h),
      mass: mass.toFixed(1),
      source: profileSource(set, stays.source),
    };
    problems.push(
      refused.length === 0
        ? raise('order.stay/none', given)
        : raise('order.stay', { ...given, refused: new Several(refused) }),
    );
    return undefined;
  }
  const [low, high] = [stays.prefer[0] * controlling, stays.prefer[1] * controlling];
  const off = ({ length }: Stay): number => Math.max(0, low - length, length - high);
  const chosen = fits.sort((a, b) => off(a) - off(b) || a.length - b.length)[0]!;
  if (chosen.near)
    warnings.push(
      raise('order.near-limit', {
        light: light.id,
        stay: chosen.name,
        uses: chosen.uses.filter(({ share }) => share > stays.near + 1e-9).map(({ says }) => says),
        source: profileSource(set, stays.source),
      }),
    );
  return chosen;
}

export interface Hinges {
  readonly name: string;
  /** Their centres along the sash, mm from its bottom or left edge. */
  readonly at: readonly number[];
  readonly uses: Stay['uses'];
  readonly near: boolean;
}

/** Nearer to a limit than this is worth a warning. */
const NEAR = 0.95;

/** The first row of the set's table that carries the sash, without places if none does; undefined where it hangs on stays. */
export function hingesOf(
  set: ProfileSet,
  light: LightItem,
  problems: Problem[],
  warnings: Problem[],
): Hinges | undefined {
  const table = set.file.hardware.hinges;
  const rows = table?.list.filter((row) => row.for === light.kind) ?? [];
  if (!table || rows.length === 0) return undefined;
  const { sheet, id } = light;
  const [w, h, mass] = [sheet.get('sash', 'w'), sheet.get('sash', 'h'), sheet.get('sash', 'mass')];
  const over = ({ kg, width, height }: (typeof rows)[number]): Message[] => [
    ...(width !== undefined && w > width + 1e-6
      ? [windowWords('stay-over', { side: windowWords('width'), limit: width })]
      : []),
    ...(height !== undefined && h > height + 1e-6
      ? [windowWords('stay-over', { side: windowWords('height'), limit: height })]
      : []),
    ...(mass > kg + 1e-9 ? [windowWords('stay-mass', { limit: kg })] : []),
  ];
  const row = rows.find((each) => over(each).length === 0);
  const source = profileSource(set, table.source);
  if (!row) {
    problems.push(
      raise('order.hinges', {
        light: id,
        w: mmText(w),
        h: mmText(h),
        mass: mass.toFixed(1),
        refused: new Several(
          rows.map((each) => windowWords('stay-refused', { stay: each.name, why: over(each) })),
        ),
        source,
      }),
    );
    return { name: '', at: [], uses: [], near: false };
  }
  const sized = (side: 'width' | 'height', size: number, limit: number | undefined) =>
    limit === undefined
      ? []
      : [
          {
            says: windowWords('stay-uses', { side: windowWords(side), size: mmText(size), limit }),
            share: size / limit,
          },
        ];
  const uses = [
    ...sized('width', w, row.width),
    ...sized('height', h, row.height),
    { says: windowWords('stay-uses-mass', { mass: mass.toFixed(1), limit: row.kg }), share: mass / row.kg },
  ];
  const close = uses.filter(({ share }) => share > NEAR + 1e-9);
  if (close.length > 0)
    warnings.push(
      raise('order.near-limit/hinges', {
        light: id,
        hinges: row.name,
        uses: close.map(({ says }) => says),
        source,
      }),
    );
  return {
    name: row.name,
    at: row.at.map((text, i) => sheet.named(`hinge.${id}.${i + 1}`, text, 'mm')),
    uses,
    near: close.length > 0,
  };
}

/** Labels a source that is neither published nor a manual: "invented: …". */
export function profileSource(set: ProfileSet, name: string): string {
  const { kind, text } = set.sourceOf(name);
  return kind === 'published' || kind === 'manual' ? text : `${kind.replace('-', ' ')}: ${text}`;
}
