/** The check that imports run one way finds what it is there to find. The directions are our own design, no source. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { checkImports } from '../../scripts/imports.mjs';
import { scratchFolder } from './scratch.ts';

function check(files: Record<string, string>): string[] {
  const root = scratchFolder();
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  return checkImports(root).wrong;
}

const TARGETS = {
  'domain/a.ts': '',
  'db/a.ts': '',
  'electron/a.ts': '',
  'renderer/a.tsx': '',
  'tests/a.ts': '',
};

it.each([
  ['domain/x.ts', "import '../db/a.ts'"],
  ['domain/x.ts', "import type { A } from '../db/a.ts'"],
  ['domain/x.ts', "import { readFileSync } from 'node:fs'"],
  ['domain/x.ts', "import { useState } from 'react'"],
  ['db/x.ts', "import type { A } from '../electron/a.ts'"],
  ['db/x.ts', "export * from '../renderer/a.tsx'"],
  ['db/x.ts', "import '../tests/a.ts'"],
  ['renderer/x.tsx', "import { a } from '../db/a.ts'; export const x = <p>{a}</p>"],
  ['renderer/x.tsx', "import { type A } from '../db/a.ts'"],
  ['renderer/x.tsx', "const a = await import('../db/a.ts')"],
  ['renderer/deep/x.tsx', "import type { A } from '../../electron/a.ts'"],
  ['electron/x.ts', "import { a } from '../domain/a.ts'"],
  ['electron/x.ts', "import type { A } from '../domain/a.ts'"],
  ['electron/x.ts', "let a: import('../domain/a.ts').A"],
  ['electron/x.ts', "import '../renderer/a.tsx'"],
  ['db/x.ts', "import './gone.ts'"],
])('%s may not: %s', (file, text) => {
  expect(check({ ...TARGETS, [file]: text })).toEqual([expect.stringContaining(`${file}: `)]);
});

it.each([
  ['domain/x.ts', "import { a } from './a.ts'; import { format } from 'date-fns'"],
  ['db/x.ts', "import { a } from '../domain/a.ts'; import { z } from 'zod'; import 'node:fs'"],
  [
    'renderer/x.tsx',
    "import type { A } from '../db/a.ts'; import { b } from '../domain/a.ts'; import 'react'",
  ],
  ['electron/x.ts', "import { a } from '../db/a.ts'"],
])('%s may: %s', (file, text) => {
  expect(check({ ...TARGETS, [file]: text })).toEqual([]);
});

it('finds files that import each other in a circle, unless only types go round', () => {
  const circle = {
    'db/a.ts': "import './b.ts'",
    'db/b.ts': "export { c } from './c.ts'",
    'db/c.ts': "import { a } from './a.ts'; export const c = a",
  };
  expect(check(circle)).toEqual(['in a circle: db/a.ts -> db/b.ts -> db/c.ts -> db/a.ts']);
  expect(check({ ...circle, 'db/c.ts': "import type { a } from './a.ts'" })).toEqual([]);
});

it('reads this project’s own files', () => {
  expect(checkImports().files).toBeGreaterThan(50);
});
