/** Questions as hooks: waiting, failed or ready, remembered by their words. */
import { keepPreviousData, queryOptions, type UseQueryResult, useQuery } from '@tanstack/react-query';
import type { QuestionName, Questions } from '../../db/api.ts';
import { answered, type ProblemError } from './problem.ts';
import { askHost } from './transport.ts';

export interface AskOptions {
  /** False: not asked yet. */
  when?: boolean;
  /** Go on showing the previous answer while the next one is on its way. */
  keep?: boolean;
}

/** How a question is asked and remembered, for hooks that ask several at once. */
export function question<K extends QuestionName>(name: K, args: Questions[K]['takes']) {
  return queryOptions<Questions[K]['gives'], ProblemError>({
    queryKey: [name, args],
    queryFn: async ({ signal }) => answered(await askHost(name, args, signal)),
  });
}

export function useAsk<K extends QuestionName>(
  name: K,
  args: Questions[K]['takes'],
  { when = true, keep = false }: AskOptions = {},
): UseQueryResult<Questions[K]['gives'], ProblemError> {
  return useQuery({
    ...question(name, args),
    enabled: when,
    ...(keep ? { placeholderData: keepPreviousData } : {}),
  });
}
