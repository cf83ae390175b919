/** A process that has a department open and works on it, then says how much memory it holds. */
import { copyFileSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import type * as Client from '../../db/store/client.ts';
import { adminOf, TODAY } from '../db/kit/opening.ts';

/** `client`: the built store's client, as the product runs it; empty for the bare side. */
const [source = '', client = ''] = process.argv.slice(2);
const file = `${source}.working`;
const endings = ['', '-wal', '-shm'];
for (const ending of endings) rmSync(`${file}${ending}`, { force: true });
copyFileSync(source, file);
try {
  console.log(client === '' ? bare() : await store((await import(client)) as typeof Client));
} finally {
  for (const ending of endings) rmSync(`${file}${ending}`, { force: true });
}

/** Both workers as a host has them, after a morning's work: lists, counts, things, why, search and deeds. */
async function store({ openDepartment }: typeof Client): Promise<number> {
  const reading = new Database(source, { readonly: true });
  const by = adminOf(reading);
  reading.close();
  const department = await openDepartment(file, { today: TODAY });
  const must = <T>(answer: { ok: true; value: T } | { ok: false; error: { message: string } }): T => {
    if (!answer.ok) throw new Error(answer.error.message);
    return answer.value;
  };
  for (let offset = 0; offset < 2000; offset += 100) {
    const list = must(await department.ask('due.list', { limit: 100, offset }));
    for (const row of list.rows.slice(0, 10)) {
      const page = must(await department.ask('item.page', { item: row.item }));
      const requirement = page.due[0]?.requirement;
      if (requirement) must(await department.ask('due.explain', { item: row.item, requirement }));
      const body = { item: row.item, assignment: 'reserve' };
      must(await department.act({ by, deeds: [{ action: 'item.assign', body }] }));
    }
    must(await department.ask('due.counts', {}));
    must(await department.ask('search.all', { text: 'engine' }));
  }
  for (const group of ['month', 'unit', 'family'] as const)
    must(await department.ask('due.groups', { by: group }));
  const resident = process.memoryUsage.rss();
  await department.close();
  return resident;
}

function bare(): number {
  let rows = 0;
  const open = [new Database(file), new Database(file, { readonly: true })];
  for (const db of open) {
    db.pragma('cache_size = -65536');
    for (const table of ['items', 'due'])
      for (const _row of db.prepare(`SELECT * FROM ${table}`).iterate()) rows++;
  }
  if (rows === 0) throw new Error('There was nothing to read.');
  const resident = process.memoryUsage.rss();
  for (const db of open) db.close();
  return resident;
}
