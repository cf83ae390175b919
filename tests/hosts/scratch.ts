/** A folder of a test's own, gone when the test is done. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'baybook-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
