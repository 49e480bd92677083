/** The tree of a formula, whatever its nodes are. */
import type { ASTNode } from '@marcbachmann/cel-js';

/** The nodes right below a node. */
export function childrenOf(node: ASTNode): ASTNode[] {
  const out: ASTNode[] = [];
  const walk = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(walk);
    else if (value !== null && typeof value === 'object' && 'op' in value && 'args' in value)
      out.push(value as ASTNode);
  };
  walk(node.args);
  return out;
}

/** Whether two whole numbers are divided anywhere in it; names are decimals. */
export const dividesWhole = (node: ASTNode): boolean =>
  (node.op === '/' && childrenOf(node).every(isWhole)) || childrenOf(node).some(dividesWhole);

function isWhole(node: ASTNode): boolean {
  if (node.op === 'value') return typeof node.args === 'bigint';
  const below = childrenOf(node);
  return ['+', '-', '*', '/', '%', '-_'].includes(node.op) && below.length > 0 && below.every(isWhole);
}
