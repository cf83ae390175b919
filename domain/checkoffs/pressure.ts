/** Whether an SCBA cylinder holds enough: 90 percent of its rated pressure. */
import { compare, type Decimal, decimalOf, decimalText, times } from '../derive/decimal.ts';

const NINE_TENTHS: Decimal = { units: 9n, places: 1 };

export interface PressureJudgement {
  /** Of the rated pressure, cut to two places, never rounded up to a limit it is under: `89.97`. */
  percent: string;
  /** Not under 90 percent: the least that a cylinder on a rig may hold. */
  passes: boolean;
  /** At or under 90 percent: at 90 percent exactly it passes, and is to be recharged all the same. */
  recharge: boolean;
  because: string;
}

/**
 * Judge a cylinder's gauge against its rated pressure, exactly. Whether it holds too much is not asked.
 *
 * 29 CFR 1910.134(h)(3)(iii) (read): kept fully charged, and recharged when the pressure falls **to** 90 percent of
 * the maker's recommended level. Departments' procedures (read) keep cylinders **at** 90 percent or more. The two meet
 * at 90 percent exactly; `recharge` follows the regulation and the rule book's recharge duty, `passes` the procedures.
 * @param read_psi decimal as text, 0 or more
 * @param rated_psi decimal as text, above 0
 * @throws RangeError where either cannot be
 */
export function judgePressure(read_psi: string, rated_psi: string): PressureJudgement {
  const [read, rated] = [decimalOf(read_psi), decimalOf(rated_psi)];
  if (read === null || read.units < 0n) throw new RangeError(`A gauge of “${read_psi}” psi cannot be.`);
  if (rated === null || rated.units <= 0n)
    throw new RangeError(`A rated pressure of “${rated_psi}” psi cannot be.`);
  const least = times(rated, NINE_TENTHS);
  const side = compare(read, least);
  const how = side < 0 ? 'under' : side > 0 ? 'over' : 'exactly';
  return {
    percent: percentOf(read, rated),
    passes: side >= 0,
    recharge: side <= 0,
    because: `${decimalText(read)} psi is ${how} ${decimalText(least)} psi, 90 percent of ${decimalText(rated)} psi: ${
      side > 0 ? 'not yet to be recharged' : 'to be recharged'
    } (29 CFR 1910.134(h)(3)(iii))`,
  };
}

function percentOf(read: Decimal, rated: Decimal): string {
  const places = Math.max(read.places, rated.places);
  const whole = ({ units, places: own }: Decimal) => units * 10n ** BigInt(places - own);
  return decimalText({ units: (whole(read) * 10_000n) / whole(rated), places: 2 });
}
