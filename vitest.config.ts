import { defineConfig } from 'vitest/config';

// The terminal library draws nothing while CI is set; the screens' tests need it unset.
delete process.env.CI;

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
