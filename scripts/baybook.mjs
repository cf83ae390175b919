// `npm run -s baybook -- …`: the terminal. Standard output is the terminal's alone.

import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildStale } from './bootstrap/build.mjs';
import { ROOT } from './bootstrap/files.mjs';
import { handOver, installDependencies } from './bootstrap/install.mjs';
import { main } from './bootstrap/run.mjs';

main(async () => {
  try {
    return await terminal();
  } catch (error) {
    // Whoever reads standard output is told there as well, in the terminal's own form.
    const todo = 'See what was printed on standard error.';
    const problem = { code: 'not ready', message: String(error?.message ?? error), todo, field: null };
    process.stdout.write(`${JSON.stringify({ error: problem })}\n`);
    throw error;
  }
});

async function terminal() {
  await installDependencies();
  const code = await handOver(process.argv[1]);
  if (code !== null) return code;
  await buildStale(['host']);
  await import(pathToFileURL(join(ROOT, 'dist', 'host', 'terminal.js')).href);
  return undefined;
}
