/** What the filter box offers: every part of the sentence, one list, and what choosing from it changes. */
import type { DueState } from '../../../domain/derive/due.ts';
import type { PickOption } from '../../parts/picker/narrow.ts';
import { stateWord } from '../../parts/state/StateMark.tsx';
import {
  type DueSearch,
  type FilterNames,
  type GroupBy,
  type Slot,
  TO_DO,
  toggleState,
  WITHIN_DAYS,
} from './filter.ts';

const ANY = '*';

/** The options of one part of the sentence. The value carries the part, so that all can stand in one list. */
export function slotChoices(slot: Slot | 'by', names: FilterNames): PickOption[] {
  switch (slot) {
    case 'state':
      return [
        option(slot, ANY, 'What is to be done', 'state', 'anything everything'),
        ...[...TO_DO, 'current' as const].map(s =>
          option(slot, s, stateWord(s), 'state', s === 'overdue' ? 'late past' : ''),
        ),
        option(slot, 'all', 'Every duty', 'state', 'all any'),
      ];
    case 'family':
      return [
        option(slot, ANY, 'Everything', 'family', 'any family'),
        ...names.families.map(f => option(slot, f.id, f.plural, 'family', f.title)),
      ];
    case 'unit':
      return [
        option(slot, ANY, 'Any unit', 'unit'),
        ...names.units.map(u => option(slot, u.id, u.name, 'unit')),
        option(slot, 'none', 'No unit', 'unit'),
      ];
    case 'station':
      return [
        option(slot, ANY, 'Any station', 'station'),
        ...names.stations.map(s => option(slot, s.id, s.name, 'station')),
      ];
    case 'requirement':
      return [
        option(slot, ANY, 'Any requirement', 'requirement'),
        ...names.requirements.map(r =>
          option(slot, r.id, r.title, names.families.find(f => f.id === r.family)?.title ?? 'requirement'),
        ),
      ];
    case 'within':
      return [
        option(slot, ANY, 'At any time', 'due'),
        ...WITHIN_DAYS.map(w => option(slot, String(w.days), `Due ${w.words}`, 'due', 'window')),
      ];
    case 'by':
      return [
        option(slot, ANY, 'Not grouped', 'group'),
        ...(['month', 'unit', 'family'] as const).map(by => option(slot, by, `By ${by}`, 'group', 'group')),
      ];
    case 'text':
      return [];
  }
}

export const ALL_SLOTS = ['state', 'family', 'unit', 'station', 'within', 'by', 'requirement'] as const;

const option = (slot: string, value: string, label: string, detail: string, also = ''): PickOption => ({
  value: `${slot}=${value}`,
  label,
  detail,
  also,
});

/** Free words, offered last so that a choice that fits is met first. */
export const wordsChoice = (text: string): PickOption => ({
  value: `text=${text}`,
  label: `“${text}”`,
  detail: 'words in the number, place or title',
});

/** The filter after a choice from the list. */
export function withChoice(search: DueSearch, choice: string): DueSearch {
  const cut = choice.indexOf('=');
  const slot = choice.slice(0, cut) as Slot | 'by';
  const value = choice.slice(cut + 1);
  if (value === ANY) return { ...search, [slot]: undefined };
  if (slot === 'state')
    return value === 'all' ? { ...search, state: 'all' } : toggleState(search, value as DueState);
  if (slot === 'within') return { ...search, within: Number(value) };
  if (slot === 'by') return { ...search, by: value as GroupBy };
  return { ...search, [slot]: value };
}
