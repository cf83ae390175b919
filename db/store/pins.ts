/** PINs: scrypt verifiers kept beside the ledger, never in it; attempts are slowed and then locked. */
import { randomBytes, scryptSync, timingSafeEqual } from 'node:crypto';
import type { Problem, Via } from '../api.ts';
import { type Db, one, run } from './statements.ts';

const KEY_BYTES = 32;
const TRIES = 5;
const LOCK_MS = 5 * 60_000;

/** Set a member's PIN. Must run inside the act that says so. */
export function setPin(db: Db, member: string, pin: string): void {
  const salt = randomBytes(16);
  run(db, 'DELETE FROM pin_verifiers WHERE member = ?', member);
  run(
    db,
    'INSERT INTO pin_verifiers (member, salt, verifier, failures, locked_until) VALUES (?, ?, ?, 0, 0)',
    member,
    salt.toString('hex'),
    scryptSync(pin, salt, KEY_BYTES).toString('hex'),
  );
}

/** Whether a member has a PIN. */
export function hasPin(db: Db, member: string): boolean {
  return one(db, 'SELECT 1 FROM pin_verifiers WHERE member = ?', member) !== undefined;
}

interface Verifier {
  salt: string;
  verifier: string;
  failures: number;
  locked_until: number;
}

/**
 * Check a PIN. A member without one acts as claimed; one who has a PIN must give it, from every host.
 * @returns how identity was shown, or the problem
 */
export function checkPin(
  db: Db,
  member: string,
  pin: string | undefined,
  via: Via,
  now: number,
): { via: Via; problem?: undefined } | { problem: Problem; via?: undefined } {
  const known = one<Verifier>(
    db,
    'SELECT salt, verifier, failures, locked_until FROM pin_verifiers WHERE member = ?',
    member,
  );
  if (!known) return { via: via === 'PIN' ? 'claimed' : via };
  const problem = (code: string, message: string, todo: string) => ({
    problem: { code, message, todo, field: 'pin' },
  });
  if (pin === undefined) return problem('PIN owed', 'This member signs with a PIN.', 'Enter the PIN.');
  if (known.locked_until > now)
    return problem(
      'PIN locked',
      'Too many wrong PINs.',
      'Wait five minutes, or ask an administrator for a new PIN.',
    );
  const right = timingSafeEqual(
    scryptSync(pin, Buffer.from(known.salt, 'hex'), KEY_BYTES),
    Buffer.from(known.verifier, 'hex'),
  );
  if (right) {
    if (known.failures > 0)
      run(db, 'UPDATE pin_verifiers SET failures = 0, locked_until = 0 WHERE member = ?', member);
    return { via: via === 'import' || via === 'terminal' ? via : 'PIN' };
  }
  return problem('wrong PIN', 'The PIN is not right.', 'Try again.');
}

/** Count a wrong PIN. Runs in a transaction of its own: the refused act around it was rolled back. */
export function countWrongPin(db: Db, member: string, now: number): void {
  run(
    db,
    `UPDATE pin_verifiers SET failures = failures + 1,
       locked_until = CASE WHEN failures + 1 >= :tries THEN :until ELSE locked_until END WHERE member = :member`,
    { tries: TRIES, until: now + LOCK_MS, member },
  );
}
