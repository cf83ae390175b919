// `npm test`: everything that must hold, in order of how soon it tells; stops at the first that does not.
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { BROWSER_ADVICE, browserOrInstall } from './bootstrap/browser.mjs';
import { buildStale } from './bootstrap/build.mjs';
import { ROOT, readJson } from './bootstrap/files.mjs';
import { handOver, installDependencies } from './bootstrap/install.mjs';
import { Advice, main, run, runTool, say } from './bootstrap/run.mjs';

const RESULTS = join(ROOT, 'test-results');
const UNIT = join(RESULTS, 'unit.json');
const E2E = join(RESULTS, 'e2e.json');

const STEPS = [
  ['types', () => runTool('typescript', 'tsc', ['-p', 'tsconfig.json'])],
  ['types of the domain alone', () => runTool('typescript', 'tsc', ['-p', 'domain/tsconfig.json'])],
  ['style and mistakes', () => runTool('@biomejs/biome', 'biome', ['check', '--error-on-warnings', '.'])],
  ['imports run one way', () => run(process.execPath, [join(ROOT, 'scripts', 'imports.mjs')])],
  ['nothing unused', () => runTool('knip', 'knip', [])],
  [
    'unit tests',
    () =>
      runTool('vitest', 'vitest', [
        'run',
        '--reporter=default',
        '--reporter=json',
        `--outputFile.json=${UNIT}`,
      ]),
  ],
  ['builds', () => buildStale(['renderer', 'host'])],
  ['end-to-end tests', () => runTool('@playwright/test', 'playwright', ['test'])],
];

main(async () => {
  await installDependencies();
  const handedOver = await handOver(process.argv[1]);
  if (handedOver !== null) return handedOver;
  const browser = await browserOrInstall();
  if (browser === null) throw new Advice(`The end-to-end tests need a browser. ${BROWSER_ADVICE}`);
  process.env.CHROME_PATH = browser;
  mkdirSync(RESULTS, { recursive: true });
  for (const old of [UNIT, E2E]) rmSync(old, { force: true });

  let code = 0;
  for (const [title, step] of STEPS) {
    say(`\n— ${title}`);
    code = (await step()) ?? 0;
    if (code === 0) continue;
    say(`\nStopped: ${title} ended with ${code}.`);
    break;
  }
  const { passed, failed, again } = counts();
  if (again > 0) process.stdout.write(`\n${again} of these passed at the second try only: look into them.\n`);
  if (passed + failed > 0) process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
  // A run that could not count its tests has not shown that they pass.
  return code === 0 && (failed > 0 || passed === 0) ? 1 : code;
});

/** Summed over the unit tests and the end-to-end tests that were run. */
function counts() {
  const unit = readJson(UNIT);
  const e2e = readJson(E2E)?.stats;
  return {
    passed: (unit?.numPassedTests ?? 0) + (e2e ? e2e.expected + e2e.flaky : 0),
    failed: (unit?.numFailedTests ?? 0) + (e2e?.unexpected ?? 0),
    again: e2e?.flaky ?? 0,
  };
}
