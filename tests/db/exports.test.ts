/** Everything out in open formats, read back by others: RFC 4180 (CSV) by Papa Parse, RFC 8785 and SHA-256 for the ledger. */
import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import type { TextFile } from '../../db/api-desk.ts';
import { aHose, layGround, newDepartment } from './kit/department.ts';

describe('a family as CSV', () => {
  it('holds every thing with its attributes, place, condition and dates, readable by any spreadsheet', async () => {
    const d = newDepartment();
    const { bed } = layGround(d);
    const item = aHose(d, '31-1', { place: bed, serial: '=1+1' });
    d.must('record.add', { item, activity: 'service test', outcome: 'pass', on: '2026-06-14' });
    d.must('item.tagOut', { item: aHose(d, '31-2'), reason: 'Cut, "badly"' });
    const { name, text } = await d.ask<TextFile>('export.items', { family: 'hose', on: '2026-11-25' });
    expect(name).toBe('hose-2026-11-25.csv');
    const { data, errors } = Papa.parse<Record<string, string>>(text.replace(/^\ufeff/, ''), {
      header: true,
      skipEmptyLines: true,
    });
    expect(errors).toEqual([]);
    expect(data.map(r => [r.Number, r.Condition])).toEqual([
      ['31-1', 'serviceable'],
      ['31-2', 'tagged out'],
    ]);
    const [first] = data;
    expect(first).toMatchObject({
      Place: 'Engine 31, hosebed driver side',
      'Service test (hose.service-test): last': '2026-06-14',
      // NFPA 1962 (2018) 4.8.2: annually.
      'Service test (hose.service-test): due': '2027-06-14',
      'Service test (hose.service-test): state': 'current',
    });
    // A cell that a spreadsheet would take for a formula stays text.
    expect(first?.Serial).toBe("'=1+1");
  });

  it('is refused for a family that is not in the book', async () => {
    await expect(newDepartment().ask('export.items', { family: 'kites' })).rejects.toThrow(/no family kites/);
  });
});

describe('the ledger as JSON Lines', () => {
  it('is each entry’s exact canonical text, and its chain can be checked by anybody', async () => {
    const d = newDepartment();
    const { bed } = layGround(d);
    aHose(d, '31-½', { place: bed });
    const { text } = await d.ask<TextFile>('export.ledger', {});
    const lines = text.trimEnd().split('\n');
    const heads = await d.ask<{ entries: number; devices: { device: string; seq: number; hash: string }[] }>(
      'ledger.heads',
      {},
    );
    expect(lines).toHaveLength(heads.entries);
    let prev: string | null = null;
    for (const line of lines) {
      const entry = JSON.parse(line) as { prev: string | null };
      expect(canonicalize(entry)).toBe(line);
      expect(entry.prev).toBe(prev);
      prev = createHash('sha256').update(line, 'utf8').digest('hex');
    }
    expect(heads.devices.map(h => h.hash)).toEqual([prev]);
  });
});
