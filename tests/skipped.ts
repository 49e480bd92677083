/** Says after the run which tests were skipped, and why: what this machine lacks must not pass unseen. */
import type { Reporter, TestModule } from 'vitest/node';

export default class Skipped implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    for (const module of modules)
      for (const test of module.children.allTests()) {
        const result = test.result();
        if (result.state === 'skipped')
          console.warn(`SKIPPED: ${test.fullName}: ${result.note ?? 'not on this system'}`);
      }
  }
}
