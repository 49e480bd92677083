/** `npm run coverage`: every branch of the rooms that decide, measure, set out and keep is taken by a test. */
import { defineConfig } from 'vitest/config';
import base from './vitest.config.js';

const ROOMS = ['unit', 'measure', 'window', 'store'];

export default defineConfig({
  test: {
    ...base.test,
    include: ROOMS.map((room) => `tests/${room}/**/*.test.ts`),
    coverage: {
      enabled: true,
      include: ROOMS.map((room) => `src/${room}/**`),
      reporter: [['text', { skipFull: true }]],
      thresholds: Object.fromEntries(ROOMS.map((room) => [`src/${room}/**`, { branches: 100 }])),
    },
  },
});
