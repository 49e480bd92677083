/** What the procedure room's tests share: the demonstration procedure as it is in the repository, and routes for sample units. */
import { readFileSync } from 'node:fs';
import { problemText, type Result } from '../../src/base/problem.js';
import { KINDS, sampleUnits } from '../../src/procedure/coverage.js';
import { figuresAsked } from '../../src/procedure/lint.js';
import type { Procedure } from '../../src/procedure/model.js';
import { parseProcedure } from '../../src/procedure/parse.js';
import { makeRoute, type RouteContexts } from '../../src/procedure/route.js';
import type { Route, RouteStep } from '../../src/procedure/types.js';

const repository = new URL('../../', import.meta.url);

export const sourceOf = (file: string) => ({ file, text: readFileSync(new URL(file, repository), 'utf8') });

export function must<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(problemText).join('\n'));
  return result.value;
}

export const idsOf = (result: Result<unknown>): string[] =>
  result.ok ? [] : result.problems.map(({ id }) => id);

export const casement: Procedure = must(parseProcedure(sourceOf('procedures/casement.yaml')));

/** Sample units by the name of their kind; their sizes are invented. */
export const units: ReadonlyMap<string, RouteContexts> = new Map(
  sampleUnits(figuresAsked(casement).keys()).map((unit, i) => [KINDS[i]!.name, unit]),
);

export const routes: ReadonlyMap<string, Route> = new Map(
  [...units].map(([name, unit]) => [name, must(makeRoute(casement, unit))]),
);

export const route = (kind: string): Route => routes.get(kind)!;

export const stepOf = (kind: string, id: string): RouteStep => {
  const step = route(kind).steps.find((step) => step.id === id);
  if (!step) throw new Error(`${kind} has no step ${id}`);
  return step;
};

/** The smallest procedure that lints clean, with parts exchanged by each test. */
export const small = (change: (text: string) => string = (text) => text) => ({
  file: 'procedures/small.yaml',
  text: change(SMALL),
});

const SMALL = `format: pinchrod-procedure 1
name: small
version: "1"
title: Two steps
deferral: Local rules come first.
features:
  frame.cut: frame cut
  frame.made: frame made
holds:
  H1: { title: Look at it }
stages:
  - id: cut
    title: Cut
    steps:
      - id: cut.frame
        title: Cut the frame
        do:
          - Cut two pieces at {mm(frame.w)}.
        why: They are needed.
        watch: One is short.
        hazards: [machine]
        caution: Clamp the piece.
        makes: [frame.cut]
        checks:
          - id: length
            kind: number
            ask: Length of the head
            expect: frame.w
            unit: mm
            quantity: length
            limits: [cut.length]
  - id: make
    title: Make
    after: [cut]
    steps:
      - id: make.frame
        title: Make the frame
        do:
          - Put it together.
        why: It is wanted.
        watch: It is crooked.
        makes: [frame.made]
        rests: [frame.cut]
        hold: H1
        checks:
          - id: square
            kind: square
            ask: Sides and diagonals
            nominal: { w: frame.w, h: frame.h }
            quantity: length
            limits: [frame.diagonals.house]
      - id: make.sash
        each: sash
        title: Hang {light.id}
        do:
          - Hang it.
        why: It opens.
        watch: It rubs.
        rests: [everything]
        checks:
          - id: done
            kind: tick
            ask: Hung.
      - id: make.end
        title: End
        do:
          - Stop.
        why: It is done.
        watch: It is not.
        rests: [frame.made]
        checks:
          - id: done
            kind: tick
            ask: Done.
`;
