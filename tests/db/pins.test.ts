import { scryptSync } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it, onTestFinished } from 'vitest';
import { entriesSince } from '../../db/ledger/exchange.ts';
import { openForWriting } from '../../db/store/open.ts';
import { all, one } from '../../db/store/statements.ts';
import { newDepartment, TestDepartment } from './kit/department.ts';

const PIN = '481516';

function withPin() {
  const d = newDepartment();
  const member = d.must('member.add', { number: '7', name: 'J. Okafor', position: 'logistics' });
  const answer = d.act([{ action: 'member.pin', body: { member }, secret: PIN }]);
  if (!answer.ok) throw new Error(answer.error.message);
  return { d, member };
}

/** An attempt that has waited out whatever the wrong PIN before it cost, short of a lock. */
function attempt(d: TestDepartment, by: string, pin?: string): string {
  d.clock.ms += 8_000;
  return attemptAtOnce(d, by, pin);
}

function attemptAtOnce(d: TestDepartment, by: string, pin?: string): string {
  const answer = d.act([{ action: 'station.add', body: { name: `Station ${d.clock.ms}` } }], {
    by,
    ...(pin === undefined ? {} : { pin }),
  });
  return answer.ok ? 'done' : answer.error.code;
}

describe('a PIN', () => {
  it('is kept as a salted scrypt verifier beside the ledger, and stands in no entry and in no export', () => {
    const { d, member } = withPin();
    attempt(d, member, PIN);
    const kept = one<{ salt: string; verifier: string }>(d.db, 'SELECT salt, verifier FROM pin_verifiers');
    const salt = Buffer.from(kept?.salt ?? '', 'hex');
    // scrypt as RFC 7914 has it, by node's own, with its default cost.
    expect(scryptSync(PIN, salt, 32).toString('hex')).toBe(kept?.verifier);
    const exported = entriesSince(d.db, new Map()).join('\n');
    const facts = all<{ values: string }>(d.db, 'SELECT "values" FROM facts')
      .map(f => f.values)
      .join('\n');
    for (const secret of [PIN, kept?.verifier ?? '', kept?.salt ?? ''])
      for (const text of [exported, facts]) expect(text).not.toContain(secret);
    d.db.pragma('wal_checkpoint(TRUNCATE)');
    expect(readFileSync(d.file).includes(PIN)).toBe(false);
  });

  it('is owed from every host once it is set, and says so in what is recorded', () => {
    const { d, member } = withPin();
    expect(attempt(d, member)).toBe('PIN owed');
    expect(attempt(d, member, PIN)).toBe('done');
    const last = () => JSON.parse(d.texts().at(-1)?.text ?? '{}') as { via: string; by: string };
    expect(last()).toMatchObject({ via: 'PIN', by: member });
    const byTerminal = d.act([{ action: 'station.add', body: { name: 'T' } }], {
      by: member,
      via: 'terminal',
    });
    expect(byTerminal).toMatchObject({ ok: false, error: { code: 'PIN owed', field: 'pin' } });
    d.must('station.add', { name: 'T' }, { by: member, via: 'terminal', pin: PIN });
    expect(last().via).toBe('terminal');
  });

  it('that is wrong is counted though the act is rolled back; after five it is locked for five minutes', () => {
    const { d, member } = withPin();
    const entries = d.count('entries');
    for (let i = 0; i < 5; i++) expect(attempt(d, member, '000000')).toBe('wrong PIN');
    expect(attempt(d, member, '000000')).toBe('PIN locked');
    expect(attempt(d, member, PIN)).toBe('PIN locked');
    d.clock.ms += 4 * 60_000;
    expect(attempt(d, member, PIN)).toBe('PIN locked');
    d.clock.ms += 45_000;
    expect(attempt(d, member, PIN)).toBe('done');
    expect(d.count('entries')).toBe(entries + 1);
    // The right one has reset the count.
    for (let i = 0; i < 4; i++) expect(attempt(d, member, '1')).toBe('wrong PIN');
    expect(attempt(d, member, PIN)).toBe('done');
    for (let i = 0; i < 4; i++) expect(attempt(d, member, '1')).toBe('wrong PIN');
    expect(attempt(d, member, PIN)).toBe('done');
  });

  it('costs a wait that grows with each wrong one; the first is taken for a slip', () => {
    const { d, member } = withPin();
    // Common practice, no source: nothing, then 2, 4 and 8 seconds.
    for (const wait_s of [0, 2, 4, 8]) {
      expect(attemptAtOnce(d, member, '000000')).toBe('wrong PIN');
      if (wait_s === 0) continue;
      // The clock moves on by a second at each look, and a wrong PIN is looked at twice.
      d.clock.ms += wait_s * 1000 - 1500;
      expect(attemptAtOnce(d, member, PIN)).toBe('PIN waits');
    }
    d.clock.ms += 1000;
    expect(attemptAtOnce(d, member, PIN)).toBe('done');
  });

  it('says how many are left and how long the wait is', () => {
    const { d, member } = withPin();
    const said = (pin: string) => {
      const answer = d.act([{ action: 'station.add', body: { name: 'S' } }], { by: member, pin });
      return answer.ok ? '' : `${answer.error.message} ${answer.error.todo}`;
    };
    expect(said('000000')).toBe('The PIN is not right. Try again. 4 more in a row lock it for 5 minutes.');
    expect(said('000000')).toContain('Try again in 2 seconds. 3 more in a row lock it for 5 minutes.');
    d.clock.ms += 60_000;
    said('000000');
    d.clock.ms += 60_000;
    expect(said('000000')).toContain('One more in a row locks it');
    d.clock.ms += 60_000;
    expect(said('000000')).toContain('It is now locked for 5 minutes.');
    expect(said(PIN)).toMatch(/locked for another 5 minutes\. Wait, or ask an administrator/);
  });

  it('that is locked stays locked when the file is closed and opened again, and locks nobody else', () => {
    const { d, member } = withPin();
    const other = d.must('member.add', { number: '8', name: 'S. Lind', position: 'logistics' });
    d.act([{ action: 'member.pin', body: { member: other }, secret: '2342' }]);
    for (let i = 0; i < 5; i++) attempt(d, member, '000000');
    expect(attempt(d, other, '2342')).toBe('done');
    d.db.close();
    const again = new TestDepartment(openForWriting(d.file), d.clock);
    onTestFinished(() => void again.db.close());
    expect(attempt(again, member, PIN)).toBe('PIN locked');
    expect(attempt(again, other, '2342')).toBe('done');
  });

  it.each(['', '123', '½½½'])('of fewer than four characters is refused: %j', secret => {
    const { d, member } = withPin();
    const answer = d.act([{ action: 'member.pin', body: { member }, secret }]);
    expect(answer).toMatchObject({ ok: false, error: { code: 'short PIN', field: 'secret' } });
    expect(attempt(d, member, PIN)).toBe('done');
  });

  it('that is still wrong after the lock has run out locks at once again', () => {
    const { d, member } = withPin();
    for (let i = 0; i < 5; i++) attempt(d, member, '000000');
    d.clock.ms += 301_000;
    expect(attempt(d, member, '000000')).toBe('wrong PIN');
    expect(attempt(d, member, PIN)).toBe('PIN locked');
  });

  it('may be set anew by an administrator, which ends a lock', () => {
    const { d, member } = withPin();
    for (let i = 0; i < 5; i++) attempt(d, member, '000000');
    d.act([{ action: 'member.pin', body: { member }, secret: '2342' }]);
    expect(attempt(d, member, PIN)).toBe('wrong PIN');
    expect(attempt(d, member, '2342')).toBe('done');
  });

  it('that was set in an act that was refused was not set', () => {
    const { d, member } = withPin();
    const answer = d.act([
      { action: 'member.pin', body: { member }, secret: '1111' },
      { action: 'member.pin', body: { member: 'nobody' }, secret: '1111' },
    ]);
    expect(answer.ok).toBe(false);
    expect(attempt(d, member, PIN)).toBe('done');
  });
});
