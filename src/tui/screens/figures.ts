/** What the units of the open one's job measured, one thing a page, as a chart with what signals. */
import { sanitize } from '../../base/text.js';
import { data, laid, type Spoken } from '../../base/words.js';
import { commonLimits, type Series, seriesOf } from '../../figures/overunits.js';
import type { KindOfLimit } from '../../figures/readings.js';
import { type SeriesFigures, seriesFigures } from '../../figures/series.js';
import { unitFigures } from '../../figures/unitfigures.js';
import { chartSigns, plainFigure } from '../../record/chartpicture.js';
import type { JobUnit, World } from '../../session/ports.js';
import { asked } from '../currenttask.js';
import { worded } from '../keys/table.js';
import { show, stay } from '../navigate.js';
import { justify, type Line, line, wrapLine } from '../parts/line.js';
import type { Update } from '../protocol.js';
import type { BenchState, Screen } from '../state.js';
import { type BenchSay, told } from '../words/told.js';
import type { ScreenDefinition } from './screen.js';

type FiguresScreen = Extract<Screen, { readonly name: 'figures' }>;

interface Shown {
  readonly series: Series;
  readonly figures: SeriesFigures;
}

/** Opens the chart of what is asked at the moment; else of what signals first. */
export function showFigures(state: BenchState, world: World): BenchState {
  const check = asked(state, world)?.task.check?.id;
  const key = check === undefined ? undefined : check.replace(/@[^/]*/, '');
  const found = shownIn(world).find(({ series }) => key !== undefined && series.key.startsWith(key));
  return show(state, { name: 'figures', check: found?.series.key, cursor: { at: 0, moved: false } });
}

/** Worked out once for what the job's units are at the moment. */
const known = new WeakMap<readonly JobUnit[], readonly Shown[]>();

function shownIn(world: World): readonly Shown[] {
  const units = world.more?.jobUnits?.();
  if (units === undefined) return [];
  const before = known.get(units);
  if (before) return before;
  const { limits } = world.rules;
  const kindOf: KindOfLimit = (id) => limits.byId.get(id)?.of;
  const all = seriesOf(units.flatMap(({ state }) => (state ? [unitFigures(state, kindOf)] : [])));
  const shown = [...all.values()].flatMap((series): Shown[] => {
    const figures = seriesFigures(
      series.readings.map(({ value }) => [value]),
      false,
      { rules: ['R1'], limits: commonLimits(series) },
    );
    return figures.ok ? [{ series, figures: figures.value }] : [];
  });
  const sorted = [...shown].sort((a, b) => signals(b) - signals(a));
  known.set(units, sorted);
  return sorted;
}

/** Of the readings themselves: their moving ranges are not drawn here. */
const signals = ({ figures }: Shown): number => ((figures.charts[0]?.signals.length ?? 0) > 0 ? 1 : 0);

function at(screen: FiguresScreen, shown: readonly Shown[]): number {
  return Math.max(
    0,
    shown.findIndex(({ series }) => series.key === screen.check),
  );
}

function figuresLines(screen: FiguresScreen, world: World, width: number, height: number): readonly Line[] {
  const say = told(world);
  const shown = shownIn(world);
  const now = shown[at(screen, shown)];
  if (!now) return wrapLine(laid` ${say('figures-none')}`, width);
  const { series, figures } = now;
  const [chart] = figures.charts;
  const place = [{ text: data(`${at(screen, shown) + 1}/${shown.length} `) }];
  const first = chart!.signals[0];
  const last = chart!.signals.at(-1);
  const said = [
    ...wrapLine(laid` ${nameOf(series, say)}`, width, 'strong'),
    justify(
      [
        {
          text: laid` ${say('figures-numbers', {
            n: figures.n,
            mean: withUnit(figures.mean, series),
            sd: withUnit(figures.sd, series),
          })}`,
        },
      ],
      place,
      width,
    ),
    ...(first && last
      ? wrapLine(
          laid` ${say('figures-signals', {
            n: chart!.signals.length,
            unit: sanitize(series.readings[last.at - 1]!.unit),
          })}`,
          width,
          'bad',
        )
      : wrapLine(laid` ${say('figures-calm')}`, width)),
  ];
  return [
    ...said,
    ...chartSigns(
      {
        points: chart!.points.map((value, i) => ({
          value,
          signals: chart!.signals.filter((signal) => signal.at === i + 1).map(({ rule }) => rule),
        })),
        centre: chart!.centre,
        lower: chart!.lower,
        upper: chart!.upper,
        tolerance: commonLimits(series),
      },
      height - said.length - 3,
    ).map((text) => line(data(text))),
    ...wrapLine(laid` ${say('figures-signs')}`, width, 'quiet'),
  ];
}

const withUnit = (value: number, { unit }: Series): string => `${plainFigure(value)} ${unit}`;

function nameOf({ step, place }: Series, say: BenchSay): Spoken {
  if (place === undefined) return sanitize(step);
  const named =
    place === 'diagonals' || place === 'widths' || place === 'heights'
      ? say(`figures-${place}`)
      : say.retell(place);
  return laid`${sanitize(step)}: ${named}`;
}

const turned = (state: BenchState, screen: FiguresScreen, by: 1 | -1, world: World): Update => {
  const shown = shownIn(world);
  const next = shown[(at(screen, shown) + by + shown.length) % Math.max(1, shown.length)];
  return stay({
    ...state,
    screen: { ...screen, check: next?.series.key, cursor: { at: 0, moved: false } },
  });
};

export const figuresScreen: ScreenDefinition<'figures'> = {
  scrolls: true,
  turns: true,
  lines: (_state, screen, world, width, _theme, height) => figuresLines(screen, world, width, height),
  keys(_state, _screen, world) {
    if (shownIn(world).length < 2) return [];
    const say = told(world);
    return [worded('yes', say('figures-next')), worded('no', say('figures-before'))];
  },
  right: (state, screen, world) => turned(state, screen, 1, world),
  left: (state, screen, world) => turned(state, screen, -1, world),
};
