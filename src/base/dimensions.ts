/**
 * Units of measure within formulas: kilograms are not added to millimetres, nor held against them. A figure written out may
 * be of any unit, and one of a thousand or more may turn one into another (`/ 1000000.0`); so may a name whose unit is `none`.
 * What is rounded is often a count (`ceil(frame.w / 600.0)`): it may be of any unit, too.
 */
import type { ASTNode } from '@marcbachmann/cel-js';

/** Powers of millimetre and kilogram; undefined where it cannot be said. */
interface Dimension {
  readonly mm: number;
  readonly kg: number;
}
type Known = Dimension | undefined;

const NUMBER: Dimension = { mm: 0, kg: 0 };
const UNITS: Readonly<Record<string, Dimension>> = {
  mm: { mm: 1, kg: 0 },
  m2: { mm: 2, kg: 0 },
  kg: { mm: 0, kg: 1 },
  'kg/m': { mm: -1, kg: 1 },
  deg: NUMBER,
  count: NUMBER,
};
/** From here on a figure may be one that turns a unit into another. */
const TURNS = 1000;

export interface Mixed {
  /** As written, with what each is of. */
  readonly left: string;
  readonly right: string;
}

/**
 * The first place where quantities of two units are added, subtracted, compared or chosen between; where there is none,
 * whether the whole is of another unit than `wanted`.
 * @param unitOf the unit of a name; undefined for one that has none
 */
export function mixedIn(
  root: ASTNode,
  nameOf: (node: ASTNode) => string | undefined,
  unitOf: (name: string) => string | undefined,
  wanted?: string,
): Mixed | undefined {
  let found: Mixed | undefined;
  const same = (a: Known, b: Known): Known => {
    if (a && b && !alike(a, b)) found ??= { left: unitText(a), right: unitText(b) };
    return a ?? b;
  };
  const visit = (node: ASTNode): Known => {
    const name = nameOf(node);
    if (name !== undefined) return UNITS[unitOf(name) ?? ''];
    const args = node.args as unknown;
    const list = Array.isArray(args) ? (args as ASTNode[]) : [];
    switch (node.op) {
      case '+':
      case '-':
        return same(visit(list[0]!), visit(list[1]!));
      case '<':
      case '<=':
      case '>':
      case '>=':
      case '==':
      case '!=':
        same(visit(list[0]!), visit(list[1]!));
        return NUMBER;
      case '*':
        return times(list[0]!, list[1]!, 1);
      case '/':
        return times(list[0]!, list[1]!, -1);
      case '?:':
        visit(list[0]!);
        return same(visit(list[1]!), visit(list[2]!));
      case '-_':
        return visit(args as ASTNode);
      case 'call':
        return call(args as [string, ASTNode[]]);
      default:
        for (const child of list) if (isNode(child)) visit(child);
        return undefined;
    }
  };
  const times = (a: ASTNode, b: ASTNode, sign: 1 | -1): Known => {
    // Figures alone are of any unit, whatever is made of them.
    if (a.op === 'value' && b.op === 'value') return undefined;
    const [left, right] = [factor(a), factor(b)];
    return left && right && { mm: left.mm + sign * right.mm, kg: left.kg + sign * right.kg };
  };
  /** As a factor a small figure is a number. */
  const factor = (node: ASTNode): Known =>
    node.op === 'value' ? (Math.abs(Number(node.args)) < TURNS ? NUMBER : undefined) : visit(node);
  const call = ([name, given]: [string, ASTNode[]]): Known => {
    const of = given.flatMap((each) => (each.op === 'list' ? (each.args as ASTNode[]) : [each])).map(visit);
    if (name === 'abs') return of[0];
    if (name === 'max' || name === 'min' || name === 'hypot' || name === 'spread')
      return of.reduce(same, undefined);
    return undefined;
  };
  const whole = visit(root);
  if (wanted !== undefined) same(UNITS[wanted], whole);
  return found;
}

const isNode = (value: unknown): value is ASTNode =>
  value !== null && typeof value === 'object' && 'op' in value;
const alike = (a: Dimension, b: Dimension): boolean => a.mm === b.mm && a.kg === b.kg;

function unitText({ mm, kg }: Dimension): string {
  const known = Object.entries(UNITS).find(([, unit]) => alike(unit, { mm, kg }));
  if (known) return known[0] === 'deg' ? 'count' : known[0];
  return [
    ...(kg === 0 ? [] : [kg === 1 ? 'kg' : `kg^${kg}`]),
    ...(mm === 0 ? [] : [mm === 1 ? 'mm' : `mm^${mm}`]),
  ].join(' ');
}
