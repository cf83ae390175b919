/** The demo shows each clock, each conflict and each version of one's own, and says where: asked as a person would. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DueList, Explanation, HistoryLine, ItemPage, ItemSummary } from '../../db/api.ts';
import type { MakeLine, MeterPage, RulebookList, RuleHistoryLine } from '../../db/api-rules.ts';
import type { BetterLine, SupplyList, SupplyShelf } from '../../db/api-supply.ts';
import { buildDemo } from '../../db/files/demo/index.ts';
import { MAKER } from '../../db/files/demo/own-book.ts';
import { PUMP_REPAIRED } from '../../db/files/demo/rig-records.ts';
import { TOLD } from '../../db/files/demo/tool-stories.ts';
import { ask } from '../../db/store/ask.ts';
import { openForWriting } from '../../db/store/open.ts';
import type { Db } from '../../db/store/statements.ts';
import { type Day, parseDay } from '../../domain/calendar/day.ts';
import type { Clock } from '../../domain/rulebook/types.ts';

const ON = '2026-11-25';
const folder = mkdtempSync(join(tmpdir(), 'baybook-demo-book-'));
let db: Db;
afterAll(() => {
  db.close();
  rmSync(folder, { recursive: true, force: true });
});
beforeAll(() => {
  db = openForWriting(join(folder, 'demo.baybook'), { create: true });
  buildDemo(db, { on: parseDay(ON) as Day, seed: 1 }, () => {});
}, 60_000);

async function question<T>(name: string, args: unknown = {}): Promise<T> {
  const answer = await ask(
    db,
    { now: () => Date.UTC(2026, 10, 25, 18), today: parseDay(ON) as Day },
    name,
    args,
  );
  if (!answer.ok) throw new Error(`${name}: ${answer.error.message}`);
  return answer.value as T;
}
const list = (args: Record<string, unknown>) => question<DueList>('due.list', args);
const why = (number: string, requirement: string) =>
  question<Explanation>('due.explain', { number, requirement });
const historyOf = (requirement: string) => question<RuleHistoryLine[]>('rulebook.history', { requirement });
async function idOf(number: string): Promise<string> {
  const [found] = await question<ItemSummary[]>('item.find', { number });
  if (!found) throw new Error(`There is no ${number}.`);
  return found.item;
}

describe('every clock kind is in force in the demo and concerns something', () => {
  const kinds: readonly Clock['kind'][] = [
    'since last',
    'once',
    'fixed month',
    'meter',
    'first of',
    'life',
    'reading limit',
    'after happenings',
    'printed date',
    'made before',
    'cylinder period',
    'cylinder life',
  ];
  it.each(kinds.filter(k => !['once', 'after happenings', 'meter'].includes(k)))(
    '%s: on the list',
    async kind => {
      const { rules } = await question<RulebookList>('rulebook.list');
      const { rows } = await list({});
      const listed = new Set(rows.map(r => r.requirement));
      const shown = rules.filter(
        r => r.adopted && r.requirement.clock.kind === kind && listed.has(r.requirement.id),
      );
      expect(shown.length).toBeGreaterThan(0);
    },
  );

  it('once: what was never looked at before first use', async () => {
    const { rows } = await list({ requirement: 'hose.first-inspection' });
    expect(rows.map(r => r.state)).toContain('never done');
  });

  it('after happenings: in the book, and shown of a coat as owed by none', async () => {
    const told = await why(TOLD.oldCoat, 'turnout.routine-inspection');
    expect(told.state).toBe('not applicable');
    expect(told.steps.join(' ')).toContain('by a date');
  });

  it('a meter, first of two: a generator’s service is likely within a range', async () => {
    const projected = (await list({ requirement: 'power-tool.service' })).rows.filter(r => r.dueTo !== null);
    expect(projected.map(r => r.number).some(n => (TOLD.hours as readonly string[]).includes(n))).toBe(true);
    for (const row of projected) expect((row.dueOn ?? '') < (row.dueTo ?? '')).toBe(true);
    const [hours] = await question<MeterPage[]>('item.meters', { item: await idOf('GEN-2') });
    expect(hours?.points).toHaveLength(12);
    expect(hours?.marks.map(m => m.requirement)).toContain('power-tool.service');
  });
});

describe('what single things show', () => {
  it('a repaired pump was tested before its year was out, and the year counts from there', async () => {
    const told = await why(PUMP_REPAIRED, 'apparatus.pump-test');
    expect(told.state).toBe('current');
    expect([told.counted[0]?.on, told.dueOn]).toEqual(['2026-09-13', '2027-09-13']);
  });

  it('a battery under 80 % and an extinguisher that lost more than a tenth of its agent are owed what they owe', async () => {
    expect((await why(TOLD.worn, 'battery.capacity')).state).toBe('retest owed');
    // 47.5 lb of 50 lb: 2.5 lb of 20 lb of agent are gone.
    const light = await why(TOLD.lightExtinguisher, 'extinguisher.agent-lost');
    expect(light.state).toBe('retest owed');
    expect(light.steps.join(' ')).toContain('2.5');
  });

  it('a coat past ten years has ended, whatever it passed', async () => {
    expect((await why(TOLD.oldCoat, 'turnout.end-of-life')).state).toBe('life ended');
  });

  it('gear in storage waits, and says what it owes before it comes back', async () => {
    const page = await question<ItemPage>('item.page', { item: await idOf(TOLD.stored[0]) });
    expect(page.assignment).toBe('storage');
    expect(page.due.map(d => d.requirement)).not.toContain('turnout.advanced-inspection');
    expect(page.beforeReturn).toContain('Advanced inspection');
    expect((await why(TOLD.stored[0], 'turnout.advanced-inspection')).paragraph).toMatch(
      /^The advanced inspection of .* waits while it is in storage\./,
    );
  });

  it('pads are past their printed date, and a lot of calibration gas is near it', async () => {
    expect((await why(TOLD.pads, 'aed.pads')).state).toBe('overdue');
    expect((await why(TOLD.gas[0], 'calibration-gas.expiry')).state).toBe('due soon');
  });

  it('an imager that fell owes a service whatever its date', async () => {
    expect((await why(TOLD.droppedImager, 'imager.service')).state).toBe('retest owed');
  });

  it('a wrong reading was voided in the open, and a pump meter was replaced', async () => {
    const told = await question<HistoryLine[]>('item.history', { item: await idOf('Brush 32') });
    expect(told.find(l => l.voided)?.what).toContain('152340');
    const meters = await question<MeterPage[]>('item.meters', { item: await idOf('Tender 34') });
    const pump = meters.find(m => m.meter === 'pump hours');
    expect(pump?.points.at(-1)).toMatchObject({ reading: 1, replaced: true });
    expect(pump?.contradiction).toBeNull();
    expect(pump?.points.at(-1)?.total).toBeGreaterThan(1);
  });
});

describe('the shelf', () => {
  it('is short in some places, holds one pair of expired pads, and owes a count of what the saws took', async () => {
    const { kinds, rows } = await question<SupplyList>('supply.list');
    expect(kinds).toBeGreaterThanOrEqual(25);
    const short = rows.filter(r => r.short > 0);
    expect(short.length).toBeGreaterThan(5);
    expect(short.length).toBeLessThan(rows.length / 4);
    expect(rows.filter(r => r.expired > 0).map(r => [r.what, r.placeName, r.expired])).toEqual([
      ['AED pads, adult', 'Engine 32, R1', 1],
    ]);
    expect(rows.filter(r => r.countOwed).map(r => r.what)).toEqual(['Bar and chain oil, 1 qt']);
  });

  it('tells of lots that another house would use up, and of spares and bottles at every station', async () => {
    const { better } = await question<{ better: BetterLine[] }>('supply.reorder');
    expect(better.map(b => b.what)).toContain('Saline, 500 mL');
    const { spares, cylinders } = await question<SupplyShelf>('supply.shelf');
    expect(new Set(spares.map(s => s.station)).size).toBe(4);
    expect(cylinders.some(c => c.by['to be filled'] > 0 || c.by.full > 0)).toBe(true);
  });
});

describe('the book of its own', () => {
  it('tightened: AEDs every three months, with reason and authority', async () => {
    const [now] = await historyOf('aed.operational-test');
    expect(now).toMatchObject({ change: 'stricter', authority: 'Medical director' });
    expect(now?.changed[0]).toMatchObject({ what: 'Clock', was: 'Every 6 months', now: 'Every 3 months' });
  });

  it('loosened with a written reason, and marked on every date: preconnects, and days of grace', async () => {
    for (const requirement of ['nozzle.line-flow-test', 'appliance.service-test', 'nozzle.service-test']) {
      const [now] = await historyOf(requirement);
      expect(now?.change, requirement).toBe('looser');
      expect(now?.reason?.length).toBeGreaterThan(20);
      const { rows } = await list({ requirement });
      expect(rows.length, requirement).toBeGreaterThan(0);
      expect([...new Set(rows.map(r => r.own))]).toEqual(['looser']);
    }
  });

  it('a fixed month: nozzles each May; hose from next year on', async () => {
    const { rows } = await list({ requirement: 'nozzle.service-test', state: 'current' });
    expect([...new Set(rows.map(r => r.dueOn?.slice(5)))]).toEqual(['05-31']);
    const [hose] = await historyOf('hose.service-test');
    expect([hose?.from, hose?.requirement.clock.kind]).toEqual(['2026-12-12', 'fixed month']);
  });

  it('a maker’s interval stands beside the shipped one, and the stricter is listed', async () => {
    const makes = await question<MakeLine[]>('makes.list', { family: 'imager' });
    const line = makes.find(m => m.maker === MAKER.maker && m.model === MAKER.model);
    expect(line?.requirements).toEqual(['local.glow-2-service']);
    const { rows } = await list({ requirement: 'local.glow-2-service' });
    expect(rows.length).toBe(line?.things);
    const told = await why(rows[0]?.number ?? '', 'local.glow-2-service');
    expect(told.clocks.find(c => c.requirement === 'imager.service')?.listed).toBe(false);
  });

  it('a local requirement, one ended, one confirmed from memory, and others that wait for it', async () => {
    const { rules } = await question<RulebookList>('rulebook.list');
    const of = (id: string) => rules.find(r => r.requirement.id === id && r.to === null);
    expect(of('local.handles-and-heads')?.requirement.own?.change).toBe('local');
    expect(of('hose.occupant-service-test')?.adopted ?? false).toBe(false);
    expect(of('turnout.liner-inspection')?.toConfirm).toBe(false);
    expect(of('harness.end-of-life')?.toConfirm).toBe(true);
    expect((await list({ requirement: 'harness.end-of-life', state: 'not judged' })).total).toBeGreaterThan(
      0,
    );
  });

  it('the newer edition under its new number, where the old one stood', async () => {
    const [now] = await historyOf('hose.vacuum-test');
    expect(now?.requirement.sources.map(s => s.document)).toContain('NFPA 1930');
    expect(now?.changed.map(c => c.what)).toContain('Source');
  });

  it('its state and kind say what is law: no plan covers its public employer, and the brigade rule is a benchmark', async () => {
    const { rules, profile } = await question<RulebookList>('rulebook.list');
    expect(profile).toMatchObject({ state: 'CO', kind: 'combination' });
    expect(rules.find(r => r.requirement.id === 'pack.inspection')?.force.force).toBe('standard');
    expect(rules.find(r => r.requirement.id === 'cylinder.requalification')?.force.force).toBe('law');
  });
});
