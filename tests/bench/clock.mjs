// Loaded before the program under test: its wall clock runs ahead by the milliseconds that the file names, so that a cure
// of hours does not make the test wait.
import { readFileSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import os from 'node:os';

const real = Date.now;
const ahead = () => {
  try {
    return Number(readFileSync(process.env.TEST_CLOCK_FILE, 'utf8')) || 0;
  } catch {
    return 0;
  }
};
Date.now = () => real() + ahead();
// The steady clocks go on with it: time passes, it is not set.
const up = os.uptime.bind(os);
os.uptime = () => up() + ahead() / 1000;
const steady = performance.now.bind(performance);
performance.now = () => steady() + ahead();
syncBuiltinESMExports();
