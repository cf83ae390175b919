import { useAsk } from '../../api/ask.ts';
import type { Vocabulary } from './deedForm.ts';

/** The trade's words and rules as the department has them; undefined while they are being read. */
export function useVocabulary(): Vocabulary | undefined {
  const words = useAsk('vocabulary.list', {}).data;
  const rules = useAsk('rulebook.list', {}).data;
  const summary = useAsk('department.summary', {}).data;
  const members = useAsk('members.list', {}).data;
  if (!words || !rules || !summary || !members) return undefined;
  return {
    families: words.families,
    assignments: words.assignments,
    rules: rules.rules.filter(r => r.adopted),
    permits: rules.permits,
    summary,
    members,
  };
}
