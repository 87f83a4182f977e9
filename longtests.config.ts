import { defineConfig } from 'vitest/config';

/** The long measurements (oracle, trials): same tests, full size, run by hand. */
export default defineConfig({
  test: {
    include: ['tests/oracle/**/*.long.ts', 'tests/trials/**/*.long.ts', 'tests/bench/**/*.long.ts'],
    globalSetup: ['tests/trials/print-tables.ts'],
    testTimeout: 3_600_000,
    maxWorkers: 2,
    reporters: ['default'],
    disableConsoleIntercept: true,
  },
});
