/** PINs: scrypt verifiers kept beside the ledger, never in it; attempts are slowed and then locked. */
import { randomBytes, scryptSync, timingSafeEqual } from 'node:crypto';
import { PIN_LEAST, PIN_LOCK_MS, PIN_RULE, PIN_TRIES, pinWait_ms } from '../../domain/people/pins.ts';
import type { Problem, Via } from '../api.ts';
import { type Db, one, run } from './statements.ts';

const KEY_BYTES = 32;

/** What is wrong with a PIN that is to be set, or null. */
export function newPinProblem(pin: string | undefined): Problem | null {
  // The ledger would say that a PIN was set, and there would be none.
  if (pin === undefined)
    return { code: 'no PIN', message: 'No PIN came with the deed.', todo: PIN_RULE, field: 'secret' };
  if ([...pin].length >= PIN_LEAST) return null;
  return {
    code: 'short PIN',
    message: `A PIN of fewer than ${PIN_LEAST} characters is too easily guessed.`,
    todo: PIN_RULE,
    field: 'secret',
  };
}

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
  // Nothing is tried while it waits, so guessing gains nothing by being quick.
  if (known.locked_until > now)
    return known.failures >= PIN_TRIES
      ? problem(
          'PIN locked',
          `Too many wrong PINs: it is locked for another ${minutes(known.locked_until - now)}.`,
          'Wait, or ask an administrator for a new PIN.',
        )
      : problem(
          'PIN waits',
          `After a wrong PIN there is a wait: another ${seconds(known.locked_until - now)}.`,
          'Wait, then enter the PIN.',
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
  return problem('wrong PIN', 'The PIN is not right.', afterWrong(known.failures + 1));
}

/** What to do after so many wrong PINs, this one among them. */
function afterWrong(wrong: number): string {
  if (wrong >= PIN_TRIES)
    return `It is now locked for ${minutes(PIN_LOCK_MS)}. Wait, or ask an administrator for a new PIN.`;
  const left = PIN_TRIES - wrong;
  const wait = pinWait_ms(wrong);
  return `Try again${wait > 0 ? ` in ${seconds(wait)}` : ''}. ${left === 1 ? 'One more' : `${left} more`} in a row lock${
    left === 1 ? 's' : ''
  } it for ${minutes(PIN_LOCK_MS)}.`;
}

const counted = (n: number, unit: string) => `${n} ${unit}${n === 1 ? '' : 's'}`;
const minutes = (ms: number) => counted(Math.ceil(ms / 60_000), 'minute');
const seconds = (ms: number) => counted(Math.ceil(ms / 1000), 'second');

/** Count a wrong PIN. Runs in a transaction of its own: the refused act around it was rolled back. */
export function countWrongPin(db: Db, member: string, now: number): void {
  const wrong =
    (one<{ failures: number }>(db, 'SELECT failures FROM pin_verifiers WHERE member = ?', member)?.failures ??
      0) + 1;
  run(
    db,
    'UPDATE pin_verifiers SET failures = ?, locked_until = ? WHERE member = ?',
    wrong,
    now + pinWait_ms(wrong),
    member,
  );
}
