/** A unit's set-out, the cut list and the marks as lines to read, in the language of whoever reads. */
import { commaWithin, hasComma } from '../base/figures.js';
import { mmText } from '../base/formula.js';
import { problemTold } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data, laid, type Spoken } from '../base/words.js';
import { packerSentence } from '../window/context.js';
import { type CutRow, cutList } from '../window/cutlist.js';
import { drawText } from '../window/draw.js';
import { elevation } from '../window/elevation.js';
import type { DividerSetOut, LightSetOut, SetOut } from '../window/types.js';
import { windowWords } from '../window/words.js';
import { type Io, indented, retold, saying, tellOf } from './io.js';
import { SETOUT_SAYS } from './words/setout.js';

type Reading = Pick<Io, 'reader'>;

export interface SetOutTextOptions {
  readonly ascii: boolean;
  readonly columns?: number;
}

/** Words and figures of the sheets for one reader. */
function sheetIn(io: Reading) {
  const say = saying(io, SETOUT_SAYS);
  const comma = hasComma(io.reader?.language ?? 'en');
  const figure = (text: string): Spoken => data(comma ? text.replace(/(\d)\.(\d)/g, '$1,$2') : text);
  const mm = (value: number): Spoken => figure(mmText(value));
  const told = (text: string): Spoken => data(comma ? commaWithin(retold(io, text)) : retold(io, text));
  const lead = Math.max(...LABELS.map((of) => say(`setout-row-${of}`).length)) + 3;
  const row = (label: Spoken, text: Spoken): Spoken => laid`${data(label.padEnd(lead))}${text}`;
  /** Two further in. */
  const lightRow = (label: Spoken, text: Spoken): Spoken => laid`  ${data(label.padEnd(lead - 2))}${text}`;
  const below = (text: Spoken): Spoken => indented(text, lead);
  return { say, figure, mm, told, row, lightRow, below };
}
type Sheet = ReturnType<typeof sheetIn>;

/** What stands before the rows of a unit and of its lights. */
const LABELS = [
  'frame',
  'mass',
  'sight',
  'addon',
  'sash',
  'glass',
  'beads',
  'handle',
  'keeps',
  'stay',
  'packing',
  'sums',
] as const;

export function setOutText(
  setOut: SetOut,
  { ascii, columns = 100 }: SetOutTextOptions,
  io: Reading = {},
): Spoken[] {
  const sheet = sheetIn(io);
  const { say, figure, mm, told, row, below } = sheet;
  const { unit, frame, profileSet, dividers, lights, sums } = setOut;
  const invented = profileSet.invented ? say('setout-invented') : data('');
  const worst = Math.max(0, ...sums.map(({ error }) => Math.abs(error)));
  return [
    data(
      laid`${data(unit.id)}   ${mm(unit.width)} x ${mm(unit.height)}   ${sanitize(unit.room)}   ${sanitize(profileSet.title)}${invented}`.trimEnd(),
    ),
    ...(setOut.refused ? [say('setout-until')] : []),
    ...[...setOut.problems, ...setOut.warnings].flatMap((problem) =>
      problemTold(problem, tellOf(io))
        .split('\n')
        .map((line) => indented(data(line))),
    ),
    data(''),
    ...drawText(elevation(setOut), {
      columns: Math.min(columns, 50),
      rows: 16,
      ascii,
      triangles: 'apex-at-hinge',
    }).map(data),
    tellOf(io)(windowWords('phrase seen from outside')),
    data(''),
    row(
      say('setout-row-frame'),
      say('setout-diagonal', { w: mm(frame.w), h: mm(frame.h), diagonal: mm(frame.diagonal) }),
    ),
    row(say('setout-row-mass'), told(setOut.lift)),
    ...dividers.map((divider) => row(data(divider.id), dividerText(divider, sheet))),
    ...lights.flatMap((light) => [data(''), ...lightText(light, sheet)]),
    data(''),
    row(
      say('setout-row-sums'),
      say('setout-sums', { n: String(sums.length), error: worst < 1e-6 ? '0' : figure(String(worst)) }),
    ),
    ...sums.map(({ terms, whole, direction }) =>
      below(
        say(`setout-sum-${direction}`, {
          terms: terms.map(({ what, length }) => `${told(what)} ${mm(length)}`).join(' + '),
          whole: mm(whole),
        }),
      ),
    ),
  ];
}

function dividerText({ direction, joint, length, centre }: DividerSetOut, { say, mm }: Sheet): Spoken {
  return say(`setout-divider-${direction}`, {
    joint: say(`setout-joint-${joint}`),
    centre: mm(centre),
    length: mm(length),
  });
}

function lightText(light: LightSetOut, sheet: Sheet): Spoken[] {
  const { say, figure, mm, told, row, lightRow, below } = sheet;
  const wh = (size: { readonly w: number; readonly h: number }) => ({ w: mm(size.w), h: mm(size.h) });
  const size = ({ w, h }: { readonly w: number; readonly h: number }) => laid`${mm(w)} x ${mm(h)}`;
  const { sash, addon, glass } = light;
  return [
    row(data(light.id), told(light.sentence)),
    lightRow(
      say('setout-row-sight'),
      light.rebate
        ? say('setout-sight', { sight: size(light.sight), rebate: size(light.rebate) })
        : say('setout-sight-only', { sight: size(light.sight) }),
    ),
    ...(addon
      ? [
          lightRow(
            say('setout-row-addon'),
            say('setout-diagonal', { ...wh(addon), diagonal: mm(addon.diagonal) }),
          ),
        ]
      : []),
    ...(sash
      ? [
          lightRow(
            say('setout-row-sash'),
            say('setout-sash', {
              ...wh(sash),
              diagonal: mm(sash.diagonal),
              mass: figure(sash.mass_kg.toFixed(1)),
            }),
          ),
        ]
      : []),
    ...(glass
      ? [
          lightRow(
            say('setout-row-glass'),
            say('setout-glass', {
              ...wh(glass),
              title: sanitize(glass.title),
              area: figure(glass.area_m2.toFixed(4)),
              mass: figure(glass.mass_kg.toFixed(1)),
              cover: mm(light.cover),
              clearance: mm(light.clearance),
            }),
          ),
        ]
      : []),
    ...(glass || light.beads.length > 0
      ? [
          lightRow(
            say('setout-row-beads'),
            data(light.beads.map(({ length, quantity }) => `${quantity} x ${mm(length)}`).join(', ')),
          ),
        ]
      : []),
    ...hardwareText(light, sheet),
    ...(light.packing === '' ? [] : [lightRow(say('setout-row-packing'), told(light.packing))]),
    ...light.packers.map((packer) => below(told(packerSentence(packer)))),
  ];
}

/** Handle, keeps and stay; none of a light that does not open. */
function hardwareText(light: LightSetOut, { say, mm, told, lightRow }: Sheet): Spoken[] {
  const { addon, handle, handle_side, stay, gear, hinges } = light;
  if (!handle_side) return [];
  const at = handle && { sash: mm(handle.on_sash), side: say(`setout-side-${handle_side}`) };
  const keeps = {
    keeps: light.keeps.map(mm).join(', ') || say('setout-keeps-none'),
    where: say(addon ? 'setout-on-addon' : 'setout-on-frame'),
  };
  const uses = {
    stay: sanitize(stay ?? ''),
    uses: light.stay_uses.map((use) => told(String(use))).join(', '),
  };
  return [
    ...(handle && at
      ? [
          lightRow(
            say('setout-row-handle'),
            handle.on_addon === null
              ? say('setout-handle-sash', at)
              : say('setout-handle', { ...at, addon: mm(handle.on_addon) }),
          ),
        ]
      : []),
    ...(handle || gear || light.keeps.length > 0
      ? [
          lightRow(
            say('setout-row-keeps'),
            gear ? say('setout-keeps-gear', { ...keeps, gear: sanitize(gear) }) : say('setout-keeps', keeps),
          ),
        ]
      : []),
    hinges
      ? lightRow(
          say('setout-row-hinges'),
          say(
            hinges.count === 0 ? 'setout-stay-none' : light.near_limit ? 'setout-stay-near' : 'setout-stay',
            {
              ...uses,
              stay: sanitize(hinges.name),
            },
          ),
        )
      : lightRow(
          say('setout-row-stay'),
          !stay
            ? say('setout-stay-none')
            : light.near_limit
              ? say('setout-stay-near', uses)
              : say('setout-stay', uses),
        ),
  ];
}

const MEASURED = {
  'long point': 'setout-measured-long',
  square: 'setout-measured-square',
  run: 'setout-measured-run',
} as const satisfies Readonly<Record<CutRow['measured'], keyof typeof SETOUT_SAYS>>;

export function cutText(setOuts: readonly SetOut[], io: Reading = {}): Spoken {
  const { say, figure, told } = sheetIn(io);
  const lines: Spoken[] = [];
  let profile = '';
  for (const { quantity, length, ends, measured, datum, label, ...cut } of cutList(setOuts)) {
    if (cut.profile !== profile) {
      profile = cut.profile;
      lines.push(data(''), sanitize(profile));
    }
    const from = data(told(datum).split(',')[0]!.padEnd(10));
    lines.push(
      laid`  ${quantity} x ${figure(length.toFixed(1).padStart(7))}  ${data(ends.join('/'))}  ${data(say(MEASURED[measured]).padEnd(10))}  ${say('setout-datum', { datum: from })}  ${sanitize(label)}`,
    );
  }
  const extras = setOuts.flatMap(({ unit, extras: all }) =>
    all.map(({ name, place, item, quantity }) => {
      const what = [name, place].filter((text) => text !== '').map(told);
      return laid`  ${quantity} x ${data(what.join(', '))}  ${data([unit.id, item].filter(Boolean).join(' '))}`;
    }),
  );
  if (extras.length > 0) lines.push(data(''), say('setout-loose'), ...extras);
  return data(lines.slice(1).join('\n'));
}

export function markText(setOuts: readonly SetOut[], io: Reading = {}): Spoken {
  const { say, figure, mm, told } = sheetIn(io);
  const lines: Spoken[] = [];
  for (const { unit, parts } of setOuts)
    for (const { id, says, length, datum, marks } of parts) {
      if (marks.length === 0) continue;
      const part = say('setout-part', { part: told(says), length: mm(length), datum: told(datum) });
      lines.push(data(''), laid`${data(unit.id)} ${data(id)}  ${part}`);
      for (const { kind, at, side, item, reason } of marks) {
        const where = data(
          [item, side]
            .filter((text) => text !== null && text !== '')
            .map((text) => told(String(text)))
            .join(', '),
        );
        const why = reason ? laid`  (${told(reason)})` : data('');
        lines.push(
          data(
            laid`  ${figure(at.toFixed(1).padStart(8))}  ${data(told(kind).padEnd(18))} ${where}${why}`.trimEnd(),
          ),
        );
      }
    }
  return data(lines.slice(1).join('\n'));
}
