/** The memory of answers, and how it is kept true while others write to the same file. */
import { QueryClient, useQueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { isStale } from './touched.ts';
import { host } from './transport.ts';

export function createClient(): QueryClient {
  return new QueryClient({
    defaultOptions: {
      queries: {
        // The change feed says when an answer is stale; nothing goes stale by itself.
        staleTime: Number.POSITIVE_INFINITY,
        gcTime: 60_000,
        retry: false,
        refetchOnWindowFocus: false,
        networkMode: 'always',
      },
      mutations: { networkMode: 'always' },
    },
  });
}

/** Ask again, now or when next looked at, whatever `touched` has made stale. */
export function spoil(client: QueryClient, touched: readonly string[]): Promise<void> {
  return client.invalidateQueries({
    predicate: query => isStale(String(query.queryKey[0]), query.queryKey[1], touched),
  });
}

/**
 * Listen to the host's change feed.
 * @returns whether the feed is alive; when it comes back everything is asked again, since changes were missed
 */
export function useChangeFeed(): boolean {
  const client = useQueryClient();
  const [alive, setAlive] = useState(true);
  useEffect(() => {
    let lost = false;
    return host().onChange(
      touched => void spoil(client, touched),
      connected => {
        setAlive(connected);
        if (connected && lost) void client.invalidateQueries();
        lost = !connected;
      },
    );
  }, [client]);
  return alive;
}
