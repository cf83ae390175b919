import { defineConfig } from '@playwright/test';

/** End-to-end tests: the built loopback host, in the browser that is installed. Each test starts its own host. */
export default defineConfig({
  testDir: 'tests/e2e',
  outputDir: 'test-results/e2e',
  reporter: [['line'], ['json', { outputFile: 'test-results/e2e.json' }]],
  globalSetup: './tests/e2e/prepare.ts',
  timeout: 60_000,
  expect: { timeout: 10_000 },
  forbidOnly: true,
  workers: 2,
  // A loaded machine can lose a race with a key. `npm test` tells how many needed their second try.
  retries: 1,
  // Every test has a host and a file of its own, so that none waits for its neighbor.
  fullyParallel: true,
  use: {
    browserName: 'chromium',
    viewport: { width: 1440, height: 900 },
    locale: 'en-US',
    // `npm run e2e -- --trace retain-on-failure` keeps what was seen; always on, it costs a seventh of the time.
    trace: 'off',
    launchOptions: {
      executablePath: process.env.CHROME_PATH ?? '/usr/bin/chromium',
      // As root the sandbox cannot start.
      args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
    },
  },
});
