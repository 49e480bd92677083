/**
 * The written rules of positions, held against a finished set-out by code that shares nothing with the solver: it
 * reads marks, sizes and packers, and knows the lengths of each set from the tables below. All lengths in mm; they are
 * invented with the sets. The rules themselves are common practice.
 */
import type { LightSetOut, Mark, Part, SetOut } from '../../src/window/types.js';

interface Rules {
  readonly slot: number;
  /** Slot in the middle of a wide sash, where the set has one. */
  readonly middle: number;
  readonly gearSlot: number;
  readonly screwSlot: number;
  readonly screwKeep: number;
  readonly screwGear: number;
  readonly screwStay: number;
  readonly through: number;
  readonly outers: number;
  readonly keepEnd: number;
  readonly pitch: { readonly screw: number; readonly drain: number };
  readonly end: { readonly screw: number; readonly drain: number };
  readonly aside: { readonly rule: number; readonly least: number; readonly most: number };
  readonly equaliser: (sight: number) => number;
  readonly stay: number;
  readonly bracket: number;
  readonly packer: number;
  /** Where the drains of a sash begin and end, from its edges, and their row. */
  readonly sash: (w: number) => { readonly from: number; readonly width: number; readonly at: number[] };
}

/** Count and places of a row at equal spaces. */
function equal(length: number, end: number, pitch: number, more = 0): number[] {
  const n = Math.max(2, Math.ceil((length - 2 * end) / pitch - 1e-9) + 1) + more;
  return Array.from({ length: n }, (_, i) => end + (i * (length - 2 * end)) / (n - 1));
}

export const RULES: Readonly<Record<'w52' | 'k70', Rules>> = {
  w52: {
    slot: 25,
    middle: 0,
    gearSlot: 60,
    screwSlot: 15,
    screwKeep: 15,
    screwGear: 20,
    screwStay: 15,
    through: 50,
    outers: 15,
    keepEnd: 37,
    pitch: { screw: 300, drain: 600 },
    end: { screw: 75, drain: 60 },
    aside: { rule: 60, least: 50, most: 200 },
    equaliser: () => 60,
    stay: 38.5,
    bracket: 40,
    packer: 10,
    sash: (w) => ({ from: 64, width: w - 128, at: equal(w - 128, 60, 600) }),
  },
  k70: {
    slot: 10,
    middle: 30,
    gearSlot: 72,
    screwSlot: 15,
    screwKeep: 22,
    screwGear: 34,
    screwStay: 18,
    through: 60,
    outers: 18,
    keepEnd: 44,
    pitch: { screw: 300, drain: 450 },
    end: { screw: 90, drain: 80 },
    aside: { rule: 70, least: 55, most: 200 },
    equaliser: (sight) => sight / 3,
    stay: 48,
    bracket: 45,
    packer: 12,
    sash: (w) => ({ from: 70, width: w - 140, at: [70, w - 140 - 70] }),
  },
};

const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;

/** Every rule that the set-out breaks, in words; none for a good one. */
export function faultsOf(made: SetOut, rules: Rules): string[] {
  const faults: string[] = [];
  for (const part of made.parts) {
    if (part.marks.length === 0 || !part.seat) continue;
    const of = (kind: string): Mark[] => part.marks.filter((mark) => mark.kind === kind);
    const slots = [...of('drain-inner'), ...of('equaliser')];
    const apart = (a: readonly Mark[], b: readonly Mark[], least: number, what: string): void => {
      for (const one of a)
        for (const other of b)
          if (one !== other && Math.abs(one.at - other.at) < least - 1e-6)
            faults.push(`${part.id}: ${what}: ${one.kind} ${one.at}, ${other.kind} ${other.at}`);
    };
    const edge = rules.slot / 2;
    apart(of('fixing'), slots, rules.screwSlot + edge, 'screw near a slot');
    apart(of('fixing'), of('stay'), rules.screwStay, 'screw near a stay hole');
    apart(of('fixing'), of('keep'), rules.screwKeep, 'screw near a keep');
    apart(of('fixing'), of('gearbox'), rules.screwGear, 'screw near the gearbox');
    const gear = rules.gearSlot / 2;
    apart(
      of('handle'),
      [...of('drain-inner'), ...of('drain-outer')],
      gear + edge,
      'drain in the gearbox slot',
    );
    apart(of('handle'), of('drain-middle'), gear + rules.middle / 2, 'drain in the gearbox slot');
    apart(of('drain-outer'), of('drain-outer'), rules.outers + rules.slot, 'outer drains too close');
    if (part.role === 'divider') {
      const drains = [...of('drain-inner'), ...of('drain-outer')];
      apart(drains, of('equaliser'), rules.through, 'water straight through');
    }
    for (const keep of of('keep'))
      if (keep.at < rules.keepEnd - 1e-6 || keep.at > part.length - rules.keepEnd + 1e-6)
        faults.push(`${part.id}: keep ${keep.at} in the neighbouring member`);
    for (const { kind, at } of part.marks)
      if (at < -1e-6 || at > part.length + 1e-6) faults.push(`${part.id}: ${kind} ${at} off the part`);
    const screws = of('fixing').map(({ at }) => at);
    screws.slice(1).forEach((at, i) => {
      if (at - screws[i]! > rules.pitch.screw + 1e-6) faults.push(`${part.id}: screws ${screws[i]} to ${at}`);
    });
    for (const mark of part.marks) faults.push(...told(part, mark));
  }
  for (const light of made.lights) {
    faults.push(...drained(made, light, rules), ...byRule(made, light, rules), ...packed(made, light, rules));
  }
  return faults;
}

function told({ id }: Part, { kind, at, moved_from: from, reason }: Mark): string[] {
  if (from === null) return [];
  return reason !== null && /moved [\d.]+ (left|right|up|down): \S/.test(reason)
    ? []
    : [`${id}: ${kind} ${from} to ${at} without a reason`];
}

/** The members that carry a light's drains and pressure slots, from its own sight line. */
function rowOf(
  made: SetOut,
  light: LightSetOut,
  kind: string,
  of: 'frame' | 'sash',
): { mark: Mark; at: number }[] {
  const start = of === 'frame' ? light.box.x : (light.sash?.box.x ?? 0);
  return made.parts
    .filter((part) => (of === 'frame' ? part.light === null : part.id === `${light.id}.sash-bottom`))
    .flatMap(({ marks, seat }) =>
      marks
        .filter((mark) => mark.kind === kind && mark.item === light.id)
        .map((mark) => ({ mark, at: seat!.from + mark.at - start })),
    )
    .sort((a, b) => a.at - b.at);
}

/** At least two inner drains no wider than their pitch, each with an outer one beside it. */
function drained(made: SetOut, light: LightSetOut, { pitch, aside }: Rules): string[] {
  const faults: string[] = [];
  for (const of of light.sash ? (['frame', 'sash'] as const) : (['frame'] as const)) {
    const inner = rowOf(made, light, 'drain-inner', of).map(({ at }) => at);
    const outer = rowOf(made, light, 'drain-outer', of).map(({ at }) => at);
    const where = `${light.id} ${of}`;
    if (inner.length < 2) faults.push(`${where}: ${inner.length} inner drains`);
    if (inner.length !== outer.length)
      faults.push(`${where}: ${inner.length} inner, ${outer.length} outer drains`);
    const most = of === 'frame' || inner.length > 2 ? pitch.drain : Number.POSITIVE_INFINITY;
    inner.slice(1).forEach((at, i) => {
      if (at - inner[i]! > most + 1e-6) faults.push(`${where}: drains ${inner[i]} to ${at}`);
    });
    if (!paired(inner, outer, aside.least, aside.most))
      faults.push(`${where}: drains ${inner} without pairs ${outer}`);
  }
  return faults;
}

/** Whether each inner one has an outer one of its own within reach. */
function paired(inner: readonly number[], outer: readonly number[], least: number, most: number): boolean {
  const [first, ...rest] = inner;
  if (first === undefined) return true;
  return outer.some((at, i) => {
    const off = Math.abs(at - first);
    return off >= least - 1e-6 && off <= most + 1e-6 && paired(rest, outer.toSpliced(i, 1), least, most);
  });
}

/** Every mark stands by its rule, or says from where it moved. */
function byRule(made: SetOut, light: LightSetOut, rules: Rules): string[] {
  const faults: string[] = [];
  const hold = (what: string, row: readonly { mark: Mark; at: number }[], ruled: readonly number[]): void => {
    const expected = [...ruled].sort((a, b) => a - b);
    const found = row
      .map(({ mark, at }) => (mark.moved_from === null ? at : at - mark.at + mark.moved_from))
      .sort((a, b) => a - b);
    if (found.length !== expected.length) {
      if (!row.every(({ mark }) => mark.reason?.includes('more than the pitch asks')))
        faults.push(
          `${light.id} ${what}: ${found.length} where the rule has ${expected.length}, without a reason`,
        );
    } else if (!found.every((at, i) => near(at, expected[i]!)))
      faults.push(`${light.id} ${what}: ${found} where the rule has ${expected}`);
  };
  const aside = (row: readonly number[], width: number): number[] =>
    row.map((at) => at + (at <= width / 2 + 1e-6 ? rules.aside.rule : -rules.aside.rule));
  const { w } = light.box;
  const drains = equal(w, rules.end.drain, rules.pitch.drain);
  hold('frame drains', rowOf(made, light, 'drain-inner', 'frame'), drains);
  hold('frame outer drains', rowOf(made, light, 'drain-outer', 'frame'), aside(drains, w));
  const head = rules.equaliser(w);
  hold('frame pressure slots', rowOf(made, light, 'equaliser', 'frame'), [head, w - head]);
  if (!light.sash) return faults;
  const { from, width, at } = rules.sash(light.sash.w);
  hold(
    'sash drains',
    rowOf(made, light, 'drain-inner', 'sash'),
    at.map((each) => from + each),
  );
  hold(
    'sash outer drains',
    rowOf(made, light, 'drain-outer', 'sash'),
    aside(at, width).map((each) => from + each),
  );
  const own = (role: string) => made.parts.find(({ id }) => id === `${light.id}.${role}`)!;
  const marks = (part: Part, kind: string) =>
    part.marks.filter((mark) => mark.kind === kind).map((mark) => ({ mark, at: mark.at }));
  for (const side of ['top', 'bottom', 'left', 'right']) {
    const part = own(`addon-${side}`);
    hold(`screws ${side}`, marks(part, 'fixing'), equal(part.length, rules.end.screw, rules.pitch.screw));
  }
  // In line with the frame's, wherever those stand.
  const sill = own('addon-bottom');
  const inLine = rowOf(made, light, 'drain-inner', 'frame').map(({ at: place }) => place + light.box.x);
  const beneath = marks(sill, 'drain-inner').map(({ at: place }) => place + sill.seat!.from);
  if (!beneath.every((place, i) => near(place, inLine[i]!)) || beneath.length !== inLine.length)
    faults.push(`${light.id}: drains of the add-on sill at ${beneath}, of the frame at ${inLine}`);
  const hinge = light.hinge!;
  for (const [ring, kind, first] of [
    ['addon', 'stay', rules.stay],
    ['sash', 'bracket', rules.bracket],
  ] as const)
    for (const side of hinge === 'top' ? ['left', 'right'] : ['top', 'bottom']) {
      const part = own(`${ring}-${side}`);
      const expected = hinge === 'left' ? first : part.length - first;
      const found = marks(part, kind).map((each) => each.at);
      if (found.length !== 1 || !near(found[0]!, expected))
        faults.push(`${part.id}: ${kind} at ${found} where the rule has ${expected}`);
    }
  return faults;
}

/** Packers lie under the glass and clear of the slots beneath them. */
function packed(made: SetOut, light: LightSetOut, rules: Rules): string[] {
  const faults: string[] = [];
  for (const { edge, centre, length } of light.packers) {
    const level = edge === 'bottom' || edge === 'top';
    const size = level ? light.glass!.w : light.glass!.h;
    if (centre < length / 2 - 1e-6 || centre > size - length / 2 + 1e-6)
      faults.push(`${light.id}: packer ${edge} ${centre} beyond the glass`);
    if (!level) continue;
    const place = light.glass!.box.x + centre;
    for (const part of made.parts) {
      const under = light.sash ? part.id === `${light.id}.sash-${edge}` : part.light === null;
      if (!under) continue;
      for (const { kind, at, item } of part.marks) {
        const isSlot = kind === (edge === 'bottom' ? 'drain-inner' : 'equaliser') && item === light.id;
        if (
          isSlot &&
          Math.abs(part.seat!.from + at - place) < rules.packer + (length + rules.slot) / 2 - 1e-6
        )
          faults.push(`${light.id}: packer ${edge} ${centre} on ${part.id} ${kind} ${at}`);
      }
    }
  }
  return faults;
}
