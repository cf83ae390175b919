import { useAsk } from '../../api/ask.ts';
import type { FilterNames } from './filter.ts';

const NONE: FilterNames = { families: [], units: [], rigs: [], stations: [], requirements: [] };

/** The words that the filter's ids stand for; empty while they are being read. */
export function useNames(): FilterNames {
  const summary = useAsk('department.summary', {}).data;
  const words = useAsk('vocabulary.list', {}).data;
  const rules = useAsk('rulebook.list', {}).data;
  if (!summary || !words || !rules) return NONE;
  const requirements = new Map(
    rules.rules
      .filter(r => r.adopted)
      .map(({ requirement: r }) => [r.id, { id: r.id, title: r.title, family: r.family }]),
  );
  return {
    families: words.families,
    units: summary.units,
    rigs: summary.rigs,
    stations: summary.stations,
    requirements: [...requirements.values()],
  };
}
