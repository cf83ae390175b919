import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEntry, nothingTouched } from '../../db/caches/apply.ts';
import { deriveTouched } from '../../db/caches/derive.ts';
import { rebuild } from '../../db/caches/rebuild.ts';
import { type Entry, entryId } from '../../db/ledger/entry.ts';
import { verifyLedger } from '../../db/ledger/verify.ts';
import { all, type Db } from '../../db/store/statements.ts';
import { fromTemplate, type TestDepartment, template } from './kit/department.ts';
import { derivedOnly, dump, expectSame } from './kit/dump.ts';
import { history, perform } from './kit/histories.ts';

const { bytes } = template(['hose', 'cylinder']);
/** More of them, and others, by `FUZZ_SEED`. */
const RUNS = process.env.FUZZ_SEED === undefined ? 250 : 1000;
const SEED = 20261125;

/** Live a history through in a file of its own, and look at the file. */
function afterHistory(acts: Parameters<typeof perform>[1][], look: (d: TestDepartment) => void): void {
  const d = fromTemplate(bytes, 'alpha');
  try {
    for (const act of acts) perform(d, act);
    look(d);
  } finally {
    d.db.close();
  }
}

describe(`in ${RUNS} random histories with voids and back-dating`, () => {
  it('the caches as they grew equal the caches made again from the ledger', { timeout: 120_000 }, () => {
    const done: Record<string, number> = {};
    fc.assert(
      fc.property(history(44), acts =>
        afterHistory(acts, d => {
          const live = dump(d.db);
          rebuild(d.db);
          expectSame(dump(d.db), live);
          expect(verifyLedger(d.db).ok).toBe(true);
          for (const { action } of all<{ action: string }>(d.db, 'SELECT action FROM entries'))
            done[action] = (done[action] ?? 0) + 1;
        }),
      ),
      // As many as it takes for every action to be among them.
      { numRuns: 2 * RUNS, seed: SEED },
    );
    // The histories are worth their name: every action was done many times over.
    const often = Object.entries(done).filter(([, n]) => n >= 30);
    expect(often.map(([action]) => action).sort()).toEqual(EVERY_ACTION);
  });

  it('what was voided leaves what is shown as if it had never been said', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(history(20), acts =>
        afterHistory(acts, d => {
          const without = fromTemplate(bytes, 'beta');
          try {
            sayWithoutVoided(d.db, without.db);
            expectSame(derivedOnly(dump(d.db)), derivedOnly(dump(without.db)));
          } finally {
            without.db.close();
          }
        }),
      ),
      { numRuns: RUNS, seed: SEED + 1 },
    );
  });

  it('a thing is in one place at a time, in every table that says where it is', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(history(20), acts =>
        afterHistory(acts, d => {
          expect(all(d.db, 'SELECT key FROM items GROUP BY key HAVING count(*) > 1')).toEqual([]);
          expect(
            all(
              d.db,
              `SELECT d.key FROM due d LEFT JOIN items i ON i.key = d.item
               WHERE i.key IS NULL OR d.place_key IS NOT iif(i.family = 'apparatus', i.key, i.place_key) OR d.family <> i.family
                 OR d.number_sort <> i.number_sort`,
            ),
          ).toEqual([]);
          expect(
            all(
              d.db,
              `SELECT i.key FROM items i LEFT JOIN things t ON t.id = i.place
               WHERE i.place_key IS NOT t.key AND i.family <> 'apparatus'`,
            ),
          ).toEqual([]);
          // A row a thing and requirement version, and no two versions in force on one day.
          expect(
            all(
              d.db,
              `SELECT a.key FROM due a JOIN due b ON b.item = a.item AND b.requirement = a.requirement AND b.key <> a.key
               WHERE (a.from_day IS NULL OR b.to_day IS NULL OR a.from_day < b.to_day)
                 AND (b.from_day IS NULL OR a.to_day IS NULL OR b.from_day < a.to_day)`,
            ),
          ).toEqual([]);
        }),
      ),
      { numRuns: RUNS, seed: SEED + 2 },
    );
  });
});

/** The same things said in another file, with every fact that was voided left out. */
function sayWithoutVoided(said: Db, without: Db): void {
  const touched = nothingTouched();
  const known = new Set(all<{ hash: string }>(without, 'SELECT hash FROM entries').map(e => e.hash));
  const voided: string[] = [];
  for (const { text, hash } of all<{ text: string; hash: string }>(
    said,
    'SELECT text, hash FROM entries ORDER BY clock, device',
  )) {
    if (known.has(hash)) continue;
    const entry = JSON.parse(text) as Entry;
    if (entry.action === 'void') voided.push(String(entry.body.target));
    else applyEntry(without, { ...entry, id: entryId(entry.device, entry.seq) }, touched);
  }
  for (const target of voided) {
    for (const { key, thing } of all<{ key: number; thing: number }>(
      without,
      "SELECT key, thing FROM facts WHERE id = :target OR entry = :target OR 'batch:' || batch = :target",
      { target },
    )) {
      touched.things.add(thing);
      without.prepare('DELETE FROM facts WHERE key = ?').run(key);
      without.prepare('DELETE FROM fact_refs WHERE fact = ?').run(key);
    }
  }
  deriveTouched(without, touched);
}

const EVERY_ACTION = [
  'agency.add',
  'carry.set',
  'checkoff.mark',
  'checkoff.sign',
  'checkoff.start',
  'cylinder.fill',
  'defect.close',
  'defect.report',
  'department.open',
  'incident.found',
  'incident.open',
  'incident.settle',
  'item.amend',
  'item.assign',
  'item.dispose',
  'item.found',
  'item.hold',
  'item.limit',
  'item.missing',
  'item.move',
  'item.oweRetest',
  'item.receive',
  'item.release',
  'item.repaired',
  'item.retire',
  'item.return',
  'item.searched',
  'item.sendToRepair',
  'item.tagOut',
  'member.add',
  'member.entitle',
  'notice.close',
  'notice.expect',
  'notice.issue',
  'notice.settle',
  'permit.confirm',
  'photo.add',
  'place.add',
  'policy.choose',
  'record.add',
  'rig.add',
  'rig.changeover',
  'rulebook.adopt',
  'station.add',
  'stock.add',
  'stock.amend',
  'stock.count',
  'stock.issue',
  'stock.move',
  'stock.par',
  'stock.receive',
  'stock.writeOff',
  'unit.add',
  'void',
];
