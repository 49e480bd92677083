/** The lists a unit is made from: cutting, machining, kit, glass, packers and hardware, row by row, as the bench shows them. */
import { mmText } from '../base/formula.js';
import { endText, partName } from './claims.js';
import { packerSentence } from './context.js';
import { cutList } from './cutlist.js';
import type { LightSetOut, Mark, Part, SetOut } from './types.js';
import { windowSays, windowWords } from './words.js';

export const WORK_LISTS = ['cutting', 'machining', 'kit', 'glass', 'packers', 'hardware'] as const;
export type WorkList = (typeof WORK_LISTS)[number];

/**
 * What a step of a procedure makes of the lists: a list, and the first letters of what its rows are: `cutting/frame`,
 * `kit/gasket-central`, `glass`, `hardware/stay`. What is machined follows from the marks that the step makes.
 */
export const LIST_CLAIM = /^(cutting|kit|glass|packers|hardware)(\/[a-z][a-z-]*)?$/;

export interface WorkRow {
  readonly unit: string;
  /** Rows with the same group stand together under it: a profile, a part, a light. */
  readonly group: string;
  readonly text: string;
  /** What it is: the role of a part, `piece`, `pane`, `packer`, `stay`, `hinge`, `gear`, `handle`, `keep`. */
  readonly role: string;
  /** Of a bar or bead, mm. */
  readonly length?: number;
  /** Light or divider that it belongs to; null for what belongs to the unit. */
  readonly item: string | null;
  /** Of a row of the machining list. */
  readonly marks?: readonly Mark[];
}

export function workRows(list: WorkList, setOut: SetOut): WorkRow[] {
  switch (list) {
    case 'cutting':
      return cutRows(setOut);
    case 'machining':
      return machiningRows(setOut);
    case 'kit':
      return kitRows(setOut);
    case 'glass':
      return ofLights(setOut, ({ glass, safety }) => (glass ? [['pane', glassText(glass, safety)]] : []));
    case 'packers':
      return ofLights(setOut, ({ packers }) =>
        packers.map((packer) => ['packer', packerSentence(packer)] as const),
      );
    case 'hardware':
      return ofLights(setOut, hardwareOf);
  }
}

function cutRows(setOut: SetOut): WorkRow[] {
  const parts = new Map(setOut.parts.map((part) => [part.id, part]));
  return cutList([setOut]).flatMap((row): WorkRow[] => {
    const part = parts.get(row.part)!;
    if (part.kind === 'gasket') return [];
    const ends = row.ends[0] === row.ends[1] ? `${row.ends[0]}°` : `${row.ends[0]}°/${row.ends[1]}°`;
    return [
      {
        unit: row.unit,
        group: row.profile,
        text: `${row.quantity} × ${row.length.toFixed(1).padStart(6)}  ${ends}  ${lightOf(part)}${partName(part)}`,
        role: part.role,
        length: row.length,
        item: itemOf(part),
      },
    ];
  });
}

const itemOf = ({ id, role, light }: Part): string | null => light ?? (role === 'divider' ? id : null);
const lightOf = ({ light }: Part): string => (light === null ? '' : `${light} `);

/** A row for each wall and kind of mark of a part, from its datum end. */
function machiningRows(setOut: SetOut): WorkRow[] {
  return setOut.parts.flatMap((part) => {
    const rows = new Map<string, Mark[]>();
    for (const mark of part.marks) {
      const key = `${mark.kind}/${mark.side}/${part.light === null ? '' : mark.item}`;
      rows.set(key, [...(rows.get(key) ?? []), mark]);
    }
    return [...rows.values()].map((marks): WorkRow => {
      const [{ kind, side }] = marks as [Mark];
      const places = marks
        .map(({ at }) => at)
        .sort((a, b) => a - b)
        .map(mmText)
        .join('  ');
      return {
        unit: setOut.unit.id,
        group: `${lightOf(part)}${partName(part)}, ${mmText(part.length)}, ${endText(part.seat?.axis !== 'y')}`,
        text: `${setOut.titles[kind] ?? kind}, ${side}: ${places}`,
        role: part.role,
        item: itemOf(part),
        marks,
      };
    });
  });
}

function kitRows({ unit, extras, parts }: SetOut): WorkRow[] {
  const pieces = extras.map(({ name, place, item, quantity }) => ({
    group: item ?? unit.id,
    text: `${quantity} × ${name}${place === '' ? '' : `, ${place}`}`,
    role: 'piece',
    item,
  }));
  const gaskets = parts
    .filter(({ kind }) => kind === 'gasket')
    .map((part) => ({
      group: part.light ?? unit.id,
      text: `${part.quantity} × ${part.length.toFixed(0)}  ${part.profile}  ${part.says}`,
      role: part.role,
      item: itemOf(part),
    }));
  const groups = new Set([...pieces, ...gaskets].map(({ group }) => group));
  return [...groups].flatMap((group) =>
    [...pieces, ...gaskets]
      .filter((row) => row.group === group)
      .map((row): WorkRow => ({ ...row, unit: unit.id })),
  );
}

function ofLights(
  { unit, lights }: SetOut,
  rowsOf: (light: LightSetOut) => readonly (readonly [string, string])[],
): WorkRow[] {
  return lights.flatMap((light) =>
    rowsOf(light).map(
      ([role, text]): WorkRow => ({
        unit: unit.id,
        group: `${light.id} ${light.sentence}`,
        text,
        role,
        item: light.id,
      }),
    ),
  );
}

const glassText = (glass: NonNullable<LightSetOut['glass']>, safety: boolean): string =>
  windowSays(safety ? 'row-glass-safety' : 'row-glass', {
    w: mmText(glass.w),
    h: mmText(glass.h),
    glass: glass.title,
    thickness: mmText(glass.thickness),
    mass: glass.mass_kg.toFixed(1),
  });

function hardwareOf(light: LightSetOut): readonly (readonly [string, string])[] {
  const { addon, stay, stay_uses, hinges, gear, handle, handle_side, keeps } = light;
  return [
    ...(stay === null ? [] : ([['stay', windowSays('row-stay', { stay, uses: stay_uses })]] as const)),
    ...(hinges === null
      ? []
      : ([
          [
            'hinge',
            windowSays('row-hinges', { hinges: hinges.name, count: String(hinges.count), uses: stay_uses }),
          ],
        ] as const)),
    ...(gear === null ? [] : ([['gear', gear]] as const)),
    ...(handle === null
      ? []
      : ([
          [
            'handle',
            windowSays('row-handle', {
              side: windowWords(`side-${handle_side!}`),
              at: mmText(handle.on_sash),
            }),
          ],
        ] as const)),
    ...(keeps.length === 0
      ? []
      : ([
          ['keep', windowSays(addon ? 'row-keeps' : 'row-keeps-frame', { at: keeps.map(mmText).join('  ') })],
        ] as const)),
  ];
}
