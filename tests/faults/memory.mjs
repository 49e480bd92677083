// Loaded before the program under test: leaves the most memory that it took, in kB, in a file when it ends.
import { writeFileSync } from 'node:fs';

process.on('exit', () => writeFileSync(process.env.TEST_MEMORY_FILE, String(process.resourceUsage().maxRSS)));
