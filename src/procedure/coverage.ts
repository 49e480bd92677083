/** Which steps and checks each unit gets, as a table. */
import { type Procedure, stepsOf } from './model.js';
import type { Route } from './types.js';

interface CoverageRow {
  readonly stage: string;
  readonly step: string;
  /** Undefined in the row of the step itself. */
  readonly check?: string;
  /** How many times each unit gets it (once for each light or divider), in the order of the routes. */
  readonly times: readonly number[];
}

export interface Coverage {
  readonly units: readonly string[];
  readonly rows: readonly CoverageRow[];
  readonly steps: readonly number[];
  readonly checks: readonly number[];
}

/** In the procedure's order; a row of zeros is a step that none of these units needs. */
export function coverageOf(procedure: Procedure, routes: readonly Route[]): Coverage {
  const counts = routes.map((route) => {
    const count = new Map<string, number>();
    const add = (key: string) => count.set(key, (count.get(key) ?? 0) + 1);
    for (const step of route.steps) {
      add(step.base);
      for (const check of step.checks) add(`${step.base}/${check.id.slice(step.id.length + 1)}`);
    }
    return count;
  });
  const times = (key: string) => counts.map((count) => count.get(key) ?? 0);
  return {
    units: routes.map((route) => route.unit),
    rows: stepsOf(procedure).flatMap((step): CoverageRow[] => [
      { stage: step.stage, step: step.id, times: times(step.id) },
      ...step.checks.map((check) => ({
        stage: step.stage,
        step: step.id,
        check: check.id,
        times: times(`${step.id}/${check.id}`),
      })),
    ]),
    steps: routes.map((route) => route.steps.length),
    checks: routes.map((route) => route.steps.reduce((sum, step) => sum + step.checks.length, 0)),
  };
}

/** Lines of a plain text table; "." where a unit does not get it. */
export function coverageText(coverage: Coverage): string[] {
  const label = (row: CoverageRow) => (row.check === undefined ? row.step : `    ${row.check}`);
  const wide = Math.max(6, ...coverage.rows.map((row) => label(row).length));
  const columns = coverage.units.map((unit) => Math.max(3, unit.length));
  const line = (name: string, cells: readonly (string | number)[]) =>
    `${name.padEnd(wide)}  ${cells.map((cell, i) => String(cell).padStart(columns[i] ?? 3)).join('  ')}`.trimEnd();
  return [
    line('', coverage.units),
    ...coverage.rows.map((row) =>
      line(
        label(row),
        row.times.map((n) => (n === 0 ? '.' : n)),
      ),
    ),
    line('steps', coverage.steps),
    line('checks', coverage.checks),
  ];
}
