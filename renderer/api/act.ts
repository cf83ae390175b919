/** Deeds from a screen: sent to the store, and what they touched asked again. */
import { useQueryClient } from '@tanstack/react-query';
import { useCallback } from 'react';
import type { ActAnswer, ActRequest, Answer } from '../../db/api.ts';
import { spoil } from './client.ts';
import { host } from './transport.ts';

/** Send deeds. A refusal comes back as a value; what is stale has been asked again when it resolves. */
export function useAct(): (request: ActRequest) => Promise<Answer<ActAnswer>> {
  const client = useQueryClient();
  return useCallback(
    async request => {
      const answer = await host().act(request);
      if (answer.ok) await spoil(client, answer.value.touched);
      return answer;
    },
    [client],
  );
}
