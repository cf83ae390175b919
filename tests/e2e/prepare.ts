/** Before the end-to-end tests: what they run is built, and the demo department is made once for all of them. */
import { mkdirSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { buildStale } from '../../scripts/bootstrap/build.mjs';
import { DEMO_FILE, TODAY, terminal } from './host.ts';

export default async function prepare(): Promise<void> {
  await buildStale(['renderer', 'host']);
  for (const suffix of ['', '-wal', '-shm']) rmSync(DEMO_FILE + suffix, { force: true });
  mkdirSync(dirname(DEMO_FILE), { recursive: true });
  await terminal(['demo', '--on', TODAY, '--seed', '1', '--file', DEMO_FILE]);
}
