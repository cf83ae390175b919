import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { Answer } from '../../db/api.ts';
import { type Department, openDepartment } from '../../db/store/client.ts';
import { CannotOpen } from '../../db/store/refusal.ts';
import { scratch } from './kit/department.ts';
import { openingDeed, TODAY } from './kit/opening.ts';

async function opened(file: string, create = false): Promise<Department> {
  const department = await openDepartment(file, { create, today: TODAY });
  onTestFinished(() => department.close());
  return department;
}

function must<T>(answer: Answer<T>): T {
  if (!answer.ok) throw new Error(answer.error.message);
  return answer.value;
}

async function open(file: string) {
  const department = await opened(file, true);
  const { entries } = must(await department.act({ by: null, deeds: [openingDeed()] }));
  return { department, by: `${entries[0]}.m` };
}

/** Until something has happened, or three seconds have gone by: the store looks for others’ writing every second. */
async function until(happened: () => boolean | Promise<boolean>): Promise<boolean> {
  for (let n = 0; n < 60; n++) {
    if (await happened()) return true;
    await new Promise(resolve => setTimeout(resolve, 50));
  }
  return false;
}

describe('the two doors of a department', () => {
  it('write and read through their workers: what was acknowledged is seen by the next question', async () => {
    const { department, by } = await open(join(scratch(), 'larkspur.baybook'));
    const told: string[][] = [];
    department.onChange(touched => told.push(touched));
    for (let n = 0; n < 20; n++) {
      const body = { family: 'hose', number: `31-${n}` };
      must(await department.act({ by, deeds: [{ action: 'item.receive', body }] }));
      expect(must(await department.ask('item.find', { number: `31-${n}` }))).toHaveLength(1);
    }
    const ofThings = () => told.filter(touched => touched.some(key => key.startsWith('item:')));
    expect(await until(() => ofThings().length === 20)).toBe(true);
    const refused = await department.act({
      by,
      deeds: [{ action: 'item.receive', body: { family: 'boat' } }],
    });
    expect(refused.ok).toBe(false);
    expect(ofThings()).toHaveLength(20);
    // A question that cannot be answered says so and the door stays open.
    expect((await department.ask('item.find', {} as never)).ok).toBe(false);
    expect(must(await department.ask('department.summary', {}))?.today).toBe(TODAY);
  });

  it('tell a host what another one wrote in the same file', async () => {
    const file = join(scratch(), 'larkspur.baybook');
    const { department, by } = await open(file);
    const other = await opened(file);
    const told: string[] = [];
    other.onChange(touched => told.push(...touched));
    must(await department.act({ by, deeds: [{ action: 'station.add', body: { name: 'Station 31' } }] }));
    expect(await until(() => told.includes('places'))).toBe(true);
    expect(must(await other.ask('places.list', {})).map(p => p.name)).toEqual(['Station 31']);
    // And both go on writing, one after the other.
    for (let n = 0; n < 6; n++) {
      const from = n % 2 === 0 ? other : department;
      must(await from.act({ by, deeds: [{ action: 'station.add', body: { name: `Station ${40 + n}` } }] }));
    }
    expect(must(await department.ask('ledger.verify', {}))).toMatchObject({ ok: true });
    expect(must(await department.ask('department.summary', {}))?.stations).toHaveLength(7);
  });

  it('read on and write no more where an entry is not what was written', async () => {
    const file = join(scratch(), 'larkspur.baybook');
    const { department, by } = await open(file);
    for (let n = 0; n < 3; n++)
      must(await department.act({ by, deeds: [{ action: 'station.add', body: { name: `Station ${n}` } }] }));
    await department.close();
    tamper(file, 'Station 2');
    const again = await opened(file);
    const refused = await again.act({ by, deeds: [{ action: 'station.add', body: { name: 'Station 9' } }] });
    expect(refused).toMatchObject({ ok: false, error: { code: 'ledger damaged' } });
    expect(must(await again.ask('department.summary', {}))?.stations).toHaveLength(3);
    const found = must(await again.ask('ledger.verify', {}));
    expect(found).toMatchObject({ ok: false, firstBad: { what: 'Its text is not what was hashed.' } });
  });

  it('find in the background what lies further back than the last entries', async () => {
    const file = join(scratch(), 'larkspur.baybook');
    const { department, by } = await open(file);
    const deeds = Array.from({ length: 150 }, (_, n) => ({
      action: 'station.add',
      body: { name: `Station ${n}` },
    }));
    must(await department.act({ by, deeds }));
    await department.close();
    tamper(file, 'Station 7"');
    const again = await opened(file);
    let n = 0;
    const refused = await until(async () => {
      const answer = await again.act({
        by,
        deeds: [{ action: 'station.add', body: { name: `New ${n++}` } }],
      });
      return !answer.ok && answer.error.code === 'ledger damaged';
    });
    expect(refused).toBe(true);
  });

  it('may be closed twice, and answer nothing after it', async () => {
    const { department } = await open(join(scratch(), 'larkspur.baybook'));
    await Promise.all([department.close(), department.close()]);
    await department.close();
    await expect(department.ask('department.summary', {})).rejects.toThrow('The reader has ended.');
    await expect(department.act({ by: null, deeds: [] })).rejects.toThrow('The writer has ended.');
  });

  it('are not opened on a file that cannot be opened, and say why', async () => {
    const error = await openDepartment(join(scratch(), 'none.baybook')).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(CannotOpen);
    expect((error as CannotOpen).problem).toMatchObject({ code: 'no file', field: null });
  });
});

/** Change one letter of an entry, with the guards taken off and put back as they were. */
function tamper(file: string, text: string): void {
  const db = new Database(file);
  const triggers = db.prepare("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").all() as {
    name: string;
    sql: string;
  }[];
  for (const { name } of triggers) db.exec(`DROP TRIGGER "${name}"`);
  const changed = db
    .prepare('UPDATE entries SET text = replace(text, :text, :other) WHERE instr(text, :text) > 0')
    .run({ text, other: text.replace('S', 'T') });
  if (changed.changes !== 1) throw new Error(`${changed.changes} entries were changed.`);
  for (const { sql } of triggers) db.exec(sql);
  db.close();
}
