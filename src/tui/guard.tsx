/** What is drawn stands inside this: a drawing that throws is a fault of the program, which the bench outlives. */
import { Text } from 'ink';
import { Component, type ReactNode, useSyncExternalStore } from 'react';
import type { Core } from './core.js';
import { UNDRAWABLE } from './words.js';

interface GuardProps {
  readonly core: Core;
  readonly children: ReactNode;
}

/** Draws again, from the state that the core then has, after each fault. */
export function Guard({ core, children }: GuardProps) {
  const faults = useSyncExternalStore(core.subscribe, core.faults);
  return (
    <Boundary key={faults} core={core}>
      {children}
    </Boundary>
  );
}

class Boundary extends Component<GuardProps, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError() {
    return { failed: true };
  }

  override componentDidCatch(error: unknown): void {
    this.props.core.undrawable(error);
  }

  override render(): ReactNode {
    return this.state.failed ? <Text>{UNDRAWABLE}</Text> : this.props.children;
  }
}
