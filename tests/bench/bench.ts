/** `npm run bench`: how long things take and how much they weigh, each beside bare SQL doing the same work. */
import { mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { importSheet, oneDeed } from './deeds.ts';
import { makeDepartment } from './departments.ts';
import { deriving, rebuilding } from './deriving.ts';
import { askLists, askWhy, search } from './questions.ts';
import { changingRules } from './rules.ts';
import { aims, legend, type Sized, table } from './table.ts';
import { buildStore, fileSize, memory } from './weight.ts';

const { values } = parseArgs({
  options: {
    sizes: { type: 'string', default: '2500,20000,100000' },
    runs: { type: 'string', default: '15' },
    help: { type: 'boolean', default: false },
  },
});
if (values.help) {
  console.log('npm run bench -- [--sizes 2500,20000,100000] [--runs 15]');
  process.exit(0);
}
const runs = Number(values.runs);
const folder = mkdtempSync(join(tmpdir(), 'baybook-bench-'));
const sizes: Sized[] = [];
try {
  await buildStore();
  for (const things of values.sizes.split(',').map(Number)) {
    const file = join(folder, `${things}.baybook`);
    const began = performance.now();
    makeDepartment(file, things);
    tell(
      `${things.toLocaleString('en-US')} things made in ${((performance.now() - began) / 1000).toFixed(0)} s`,
    );
    const measured = [
      oneDeed(file, runs * 10),
      await importSheet(file, Math.min(3, runs)),
      ...(await askLists(file, runs)),
      await askWhy(file, runs * 4),
      await search(file, Math.min(5, runs)),
      await deriving(file, Math.min(5, runs)),
      rebuilding(file, Math.min(3, runs)),
      ...(await changingRules(file, Math.min(3, runs))),
      fileSize(file),
      memory(file),
    ];
    sizes.push({ things, measured });
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
console.log(
  `\nNode ${process.version}, ${availableParallelism()} × ${cpus()[0]?.model ?? 'processor'}; medians. "Bare" is measured in the same run, turn by turn:`,
);
console.log(legend(sizes[0]?.measured ?? []));
console.log(`\n${table(sizes)}`);
console.log(`\nAims:\n${aims(sizes)}`);

function tell(line: string): void {
  process.stderr.write(`${line}\n`);
}
