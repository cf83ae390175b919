/** Facts of counted stock in plain words. */
import { showWhen } from '../../domain/calendar/show.ts';
import type { When } from '../../domain/calendar/when.ts';
import { capital } from '../../domain/capital.ts';
import { amountWords } from '../../domain/supply/boxes.ts';
import type { LotAmount } from '../../domain/supply/lots.ts';
import type { LotCounted } from '../../domain/supply/stock.ts';
import { one } from '../store/statements.ts';
import type { Asking } from './types.ts';

/** The name of a place or unit by its id, looked up once. */
export function placeNamer(asking: Asking): (id: string) => string {
  const known = new Map<string, string>();
  return id => {
    let name = known.get(id);
    if (name === undefined) {
      name =
        one<{ name: string | null }>(
          asking.db,
          `SELECT coalesce(p.path, u.name) AS name FROM things t LEFT JOIN places p ON p.key = t.key
           LEFT JOIN units u ON u.key = t.key WHERE t.id = ?`,
          id,
        )?.name ?? id;
      known.set(id, name);
    }
    return name;
  };
}

/** One line: `Issued 20 of lot A7-114 from Station 31, storeroom to Engine 31`. */
export function stockFactInWords(
  nameOf: (place: string) => string,
  perBox: number | null,
  kind: string,
  v: Record<string, unknown>,
): string {
  const said = v.note ? `: ${v.note}` : '';
  const taken = () =>
    (v.taken as LotAmount[]).map(t => `${amountWords(t.amount, perBox)}${ofLot(t.lot)}`).join(', ');
  switch (kind) {
    case 'received': {
      const until = typeof v.expires === 'string' ? `, expires ${showWhen(v.expires as When)}` : '';
      const lot = v.lot === v.expires ? '' : ofLot(v.lot as string | null);
      return `Received ${amountWords(Number(v.amount), perBox)}${lot}${until} at ${nameOf(String(v.place))}${said}`;
    }
    case 'issued':
      return `Issued ${taken()} from ${nameOf(String(v.place))}${v.to ? ` to ${nameOf(String(v.to))}` : ''}${said}`;
    case 'moved':
      return `Moved ${taken()} from ${nameOf(String(v.from))} to ${nameOf(String(v.to))}${said}`;
    case 'written off':
      return `Wrote off ${taken()} at ${nameOf(String(v.place))}: ${v.why}`;
    case 'counted': {
      const counts = (v.counts as LotCounted[]).map(c => `${amountWords(c.amount, perBox)}${ofLot(c.lot)}`);
      return `Counted ${counts.join(', ')} at ${nameOf(String(v.place))}${v.witness ? ', two of them' : ''}`;
    }
    case 'par':
      return `${nameOf(String(v.place))} should hold ${v.par}, at least ${v.min}`;
    case 'identity':
      return identityWords(v);
    default:
      return capital(kind);
  }
}

function identityWords(v: Record<string, unknown>): string {
  if (v.kept === false) return 'Kept no longer';
  const told = [
    ...(v.what ? [String(v.what)] : []),
    ...(typeof v.perBox === 'number'
      ? [`${v.perBox} to the box`]
      : v.unit === 'each'
        ? ['each by each']
        : []),
    ...(v.twoCount === true ? ['counted by two'] : v.twoCount === false && !v.what ? ['counted by one'] : []),
    ...(v.kept === true ? ['kept again'] : []),
  ];
  return `${v.what && v.unit && v.twoCount !== undefined ? 'Kept as' : 'Amended:'} ${told.join(', ')}`;
}

/** A lot without a number of its own goes by its expiry. */
function ofLot(lot: string | null): string {
  if (lot === null) return '';
  return /^\d{4}(-\d{2}){0,2}$/.test(lot) ? ` expiring ${showWhen(lot as When)}` : ` of lot ${lot}`;
}
