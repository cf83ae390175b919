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
  use: {
    browserName: 'chromium',
    viewport: { width: 1440, height: 900 },
    locale: 'en-US',
    trace: 'retain-on-failure',
    launchOptions: {
      executablePath: process.env.CHROME_PATH ?? '/usr/bin/chromium',
      // As root the sandbox cannot start.
      args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
    },
  },
});
