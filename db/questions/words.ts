/** Facts in plain words, for histories. */
import { capital } from '../../domain/capital.ts';
import { photosOf, photosWords } from '../../domain/photos.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { type AgainstFill, againstWords } from '../../domain/supply/fill-against.ts';
import { showMeasure, showValue } from '../../domain/units.ts';
import { one } from '../store/statements.ts';
import { measuresOf } from './measures.ts';
import type { Asking } from './types.ts';

/** One line for a fact: `Service test, passed`, `Placed at Engine 31, hosebed driver side`. */
export function factInWords(
  asking: Asking,
  family: string,
  kind: string,
  values: Record<string, unknown>,
): string {
  switch (kind) {
    case 'record': {
      if (values.fill) return fillWords(asking, values);
      const verdict = { pass: 'passed', fail: 'failed', 'not completed': 'not completed' };
      return `${capital(String(values.activity))}, ${verdict[values.outcome as keyof typeof verdict]}`;
    }
    case 'place':
      return `Placed at ${placeName(asking, String(values.place))} (${values.how})`;
    case 'assignment':
      return `Assigned: ${values.assignment}`;
    case 'condition':
      return `${capital(String(values.condition))}${values.reason ? `: ${values.reason}` : ''}`;
    case 'sealed': {
      const counts = values.counts as { amount: number }[];
      return `Counted in full, ${counts.length} ${counts.length === 1 ? 'line' : 'lines'}, and sealed with ${values.seal}`;
    }
    case 'opened':
      return `Opened: ${values.why}`;
    case 'seal seen':
      if (values.intact !== true) return `Seal found broken${values.seal ? `, number ${values.seal}` : ''}`;
      return `Seal ${values.seal} seen whole`;
    case 'owed': {
      const activities = values.activities as string[];
      return `${capital(String(values.because))}${
        activities.length > 0 ? `; owes ${activities.join(' and ')}` : '; owes nothing more'
      }`;
    }
    case 'identity': {
      const attributes = Object.entries((values.attributes ?? {}) as Record<string, unknown>);
      const known = familyOf(family)?.attributes ?? [];
      const measures = measuresOf(asking.db);
      const told = attributes.map(([key, v]) => {
        const attribute = known.find(a => a.key === key);
        const value = v === null ? 'not known' : attribute ? showValue(attribute, v, measures) : String(v);
        return `${(attribute?.title ?? key).toLowerCase()} ${value}`;
      });
      const first = values.family !== undefined ? `Received as ${values.number}` : 'Amended';
      return [
        first,
        ...(values.family === undefined && values.number ? [`number ${values.number}`] : []),
        ...told,
      ].join(', ');
    }
    case 'meter':
      return `${capital(String(values.meter))} read ${values.reading}${values.meterReplaced ? ', on a replaced meter' : ''}`;
    case 'ride':
      return values.unit ? 'A unit’s crew took the rig' : 'The crew left the rig';
    case 'rig condition':
      return `${capital(String(values.condition))}${values.reason ? `: ${values.reason}` : ''}`;
    case 'photo':
      return `${capital(photosWords(photosOf(values).length))}${values.note ? `: ${values.note}` : ''}`;
    case 'searched':
      return `Searched for: ${values.where}`;
    case 'custody':
      return `Handed to ${values.to}`;
    case 'sent':
      return `Sent to repair${values.promised ? `, promised for ${values.promised}` : ''}${values.cost_usd ? `, estimate $${values.cost_usd}` : ''}`;
    case 'walk-round': {
      const out = (values.out ?? []) as string[];
      const limited = (values.limited ?? []) as string[];
      const found = [...out, ...limited];
      return `Walked round: ${found.length === 0 ? 'nothing puts it out or limits it' : found.join('; ')}`;
    }
    case 'read':
      return values.giveUp ? `Numbers given up: ${values.giveUp}` : 'Numbers read that were owed';
    case 'carry line':
      return values.ended
        ? 'A line was taken off the carry list'
        : `Carry list: ${values.qty} ${values.what}`;
    case 'schedule':
      return `Gone through by schedule: ${values.title}`;
    case 'missed':
      return `A check-off was late or missed: ${values.reason}`;
    case 'mark':
      return `Gone through: ${values.place}`;
    case 'signed':
      return 'Check-off signed';
    case 'countersigned':
      return 'Check-off countersigned';
    case 'set aside':
      return `Check-off set aside: ${values.why}`;
    case 'still so':
      return 'Found again, still so';
    case 'closed':
      return values.how ? `Settled: ${values.how}` : capital(kind);
    case 'used':
      return `Used: ${values.at}`;
    case 'gauge':
      return `Read ${values.reading} ${values.unit} at a check-off`;
    case 'drawing':
      return 'The drawing was arranged';
    default:
      return capital(kind);
  }
}

/** `Filled to 4,500 psi, though its requalification was due by 30 Sep 2026 (49 CFR 180.205(c)).` */
function fillWords(asking: Asking, values: Record<string, unknown>): string {
  const { gauge_psi } = values.readings as { gauge_psi: number };
  const { against } = values.fill as { against: readonly AgainstFill[] };
  const though = against.filter(a => a.effect !== 'note').map(againstWords);
  const filled = `Filled to ${showMeasure(gauge_psi, 'psi', measuresOf(asking.db))}`;
  return though.length === 0 ? filled : `${filled}, though: ${though.join(' ')}`;
}

function placeName(asking: Asking, id: string): string {
  return (
    one<{ path: string }>(
      asking.db,
      'SELECT p.path FROM places p JOIN things t ON t.key = p.key WHERE t.id = ?',
      id,
    )?.path ?? id
  );
}
