/**
 * What must hold of carry lists, check-offs, defects and chains whatever was said in whatever order: nothing is in two
 * places, what does not serve never counts, every exception has one end, an old day's list can always be shown.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CarryHolder, CarryPage, ChainLine, DefectLine } from '../../db/api-checks.ts';
import type { KitLine } from '../../db/api-kits.ts';
import { asItemFacts, factsOf } from '../../db/caches/facts.ts';
import { rebuild } from '../../db/caches/rebuild.ts';
import { all } from '../../db/store/statements.ts';
import { parseDay } from '../../domain/calendar/day.ts';
import { firstDay, type When } from '../../domain/calendar/when.ts';
import { chainsOf, type SideFact } from '../../domain/chains/chain.ts';
import type { PlaceMark } from '../../domain/checkoffs/marks.ts';
import type { Fact } from '../../domain/facts.ts';
import { fromTemplate, type TestDepartment, template } from './kit/department.ts';
import { derivedOnly, dump } from './kit/dump.ts';
import { history, OF_CHECKS, OF_KITS, perform } from './kit/histories.ts';

const { bytes } = template(['hose', 'cylinder']);
const SEED = 20261126;
const OUT = ['tagged out', 'at repair', 'retest owed', 'held for investigation', 'missing', 'limited use'];

async function inHistories(
  runs: number,
  look: (d: TestDepartment) => Promise<void> | void,
  acts = history(44),
): Promise<void> {
  await fc.assert(
    fc.asyncProperty(acts, async acts => {
      const d = fromTemplate(bytes, 'alpha');
      try {
        for (const act of acts) perform(d, act);
        await look(d);
      } finally {
        d.db.close();
      }
    }),
    { numRuns: runs, seed: SEED },
  );
}

describe('in random histories with voids and back-dating', { timeout: 120_000 }, () => {
  it('every exception of a signed check-off is one defect, open or settled', async () => {
    let exceptions = 0;
    await inHistories(
      120,
      async d => {
        const signed = all<{ entry: string; checkoff: string; values: string }>(
          d.db,
          `SELECT f.entry, t.id AS checkoff, f."values" FROM facts f JOIN things t ON t.key = f.thing
         WHERE f.kind = 'signed' AND f.voided_at IS NULL`,
        );
        const { rows } = await d.ask<{ rows: DefectLine[] }>('defects.list', {});
        const open = await d.ask<{ rows: DefectLine[] }>('defects.list', { open: true });
        expect(open.rows.map(r => r.id).sort()).toEqual(
          rows
            .filter(r => r.closed === null)
            .map(r => r.id)
            .sort(),
        );
        expect(new Set(rows.map(r => r.id)).size).toBe(rows.length);
        for (const { entry, checkoff, values } of signed) {
          const { marks } = JSON.parse(values) as { marks: PlaceMark[] };
          const found = marks.flatMap(m => m.exceptions).filter(e => e.defect === null);
          exceptions += found.length;
          const own = rows.filter(r => r.checkoff === checkoff && r.id.startsWith(`${entry}.`));
          const voided = all(
            d.db,
            'SELECT 1 FROM facts WHERE entry = ? AND voided_at IS NOT NULL',
            entry,
          ).length;
          if (voided === 0) expect(own).toHaveLength(found.length);
        }
      },
      history(44, OF_CHECKS),
    );
    // The histories are worth their name.
    expect(exceptions).toBeGreaterThan(15);
  });

  it('a thing has an open chain while it is out of service, and no other', async () => {
    let chains = 0;
    await inHistories(80, async d => {
      const { rows } = await d.ask<{ rows: ChainLine[] }>('chains.list', {});
      const items = all<{ key: number; id: string; condition: string }>(
        d.db,
        "SELECT i.key, t.id, i.condition FROM items i JOIN things t ON t.key = i.key WHERE i.family <> 'apparatus'",
      );
      const out = items.filter(i => OUT.includes(i.condition));
      expect(
        rows
          .map(r => r.item)
          .filter(id => items.some(i => i.id === id))
          .sort(),
      ).toEqual(out.map(i => i.id).sort());
      for (const item of items) {
        const told = chainsOf(asItemFacts(factsOf(d.db, item.key)) as (Fact | SideFact)[]);
        expect(told.filter(c => c.until === null).length).toBeLessThanOrEqual(1);
        // All but the last are ended before the next begins.
        for (const [i, chain] of told.slice(0, -1).entries())
          expect((chain.until ?? '') <= (told[i + 1]?.from ?? '')).toBe(true);
      }
      chains += out.length;
    });
    expect(chains).toBeGreaterThan(50);
  });

  it('what does not serve never counts, and nothing fills two lines', async () => {
    let counted = 0;
    await inHistories(
      80,
      async d => {
        for (const { of } of await d.ask<CarryHolder[]>('carry.holders')) {
          const { lines, extra } = await d.ask<CarryPage>('carry.page', { of });
          const placed = [...lines.flatMap(l => [...l.here, ...l.elsewhere]), ...extra].map(t => t.item);
          expect(new Set(placed).size).toBe(placed.length);
          for (const line of lines) {
            if (line.family === null) continue;
            const serving = [...line.here, ...line.elsewhere].filter(
              t => t.condition === 'serviceable' || t.condition === 'limited use',
            );
            expect(line.serving).toBe(serving.length);
            expect(line.lacking).toBe(Math.max(0, line.qty - serving.length));
            counted += 1;
          }
        }
      },
      history(44, OF_CHECKS),
    );
    expect(counted).toBeGreaterThan(25);
  });

  it('a kit whose seal is not whole never serves, and what lies in a kit lies where the kit does', async () => {
    const seen = { kits: 0, whole: 0, inside: 0 };
    await inHistories(
      80,
      async d => {
        const { rows } = await d.ask<{ rows: KitLine[] }>('kits.list', {});
        for (const kit of rows) {
          const key =
            all<{ key: number }>(d.db, 'SELECT key FROM things WHERE id = ?', kit.item)[0]?.key ?? -1;
          const last = factsOf(d.db, key)
            .filter(f => f.kind === 'sealed' || f.kind === 'opened')
            .sort((a, b) =>
              a.effective === b.effective ? a.clock - b.clock : a.effective < b.effective ? -1 : 1,
            )
            .at(-1);
          if (kit.state === 'sealed') expect(last?.kind).toBe('sealed');
          if (last?.kind !== 'sealed') expect(kit.effect).toBe('blocks');
          seen.kits++;
          if (kit.state === 'sealed') seen.whole++;
        }
        for (const { inner, outer, rig, kitRig } of all<{
          inner: string;
          outer: string;
          rig: number | null;
          kitRig: number | null;
        }>(
          d.db,
          `SELECT p.path AS inner, k.path AS outer, p.rig, k.rig AS kitRig FROM items i
         JOIN places p ON p.key = i.place_key JOIN places k ON k.key = p.kit WHERE p.kit IS NOT NULL`,
        )) {
          expect(inner.startsWith(outer)).toBe(true);
          expect(rig).toBe(kitRig);
          seen.inside++;
        }
        const grown = dump(d.db);
        rebuild(d.db);
        expect(derivedOnly(dump(d.db))).toEqual(derivedOnly(grown));
      },
      history(30, OF_KITS),
    );
    expect(seen.kits).toBeGreaterThan(100);
    expect(seen.whole).toBeGreaterThan(20);
    expect(seen.inside).toBeGreaterThan(40);
  });

  it('the carry list of any day is what was last said of each line by then', async () => {
    const days = ['2020-06-01', '2022-01-31', '2024-12-31', '2026-11-25'];
    let shown = 0;
    await inHistories(
      120,
      async d => {
        for (const { of } of await d.ask<CarryHolder[]>('carry.holders')) {
          const key = all<{ key: number }>(d.db, 'SELECT key FROM things WHERE id = ?', of)[0]?.key ?? -1;
          const said = factsOf(d.db, key).filter(f => f.kind === 'carry line');
          for (const on of days) {
            const day = parseDay(on) as NonNullable<ReturnType<typeof parseDay>>;
            const last = new Map<string, (typeof said)[number]>();
            for (const fact of said) {
              if (firstDay(fact.effective as When) > day) continue;
              const line = String(fact.values.line);
              const before = last.get(line);
              const later =
                !before ||
                fact.effective > before.effective ||
                (fact.effective === before.effective && fact.clock >= before.clock);
              if (later) last.set(line, fact);
            }
            const { lines } = await d.ask<CarryPage>('carry.page', { of, on });
            expect(lines.map(l => `${l.line} ${l.what} ${l.qty}`).sort()).toEqual(
              [...last.values()]
                .filter(f => f.values.ended !== true)
                .map(f => `${f.values.line} ${f.values.what} ${f.values.qty}`)
                .sort(),
            );
            shown += lines.length;
          }
        }
      },
      history(44, OF_CHECKS),
    );
    expect(shown).toBeGreaterThan(200);
  });
});
