import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defineConfig } from 'vitest/config';

// The terminal library draws nothing while CI is set; the screens' tests need it unset.
delete process.env.CI;
// What this account knows of workshops: of those of the tests elsewhere.
process.env.PINCHROD_STATE = join(tmpdir(), `pinchrod-state-${process.pid}`);

// Documents that are compared with kept ones tell time by the clock on the wall.
process.env.TZ = 'UTC';
// What is printed is compared in English.
process.env.LANG = 'C.UTF-8';
delete process.env.LC_ALL;
delete process.env.LC_MESSAGES;

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    testTimeout: 90_000,
    hookTimeout: 60_000,
    pool: 'forks',
    maxWorkers: 2,
    globalSetup: ['tests/setup.ts'],
    reporters: ['default', './tests/skipped.ts'],
  },
});
