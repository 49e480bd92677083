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
