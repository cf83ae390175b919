/** Midnight is the department's own, and screens that stood open through it are asked anew. */

import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { renderHook } from '@testing-library/react';
import type { ReactNode } from 'react';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { useDayTurn } from '../../renderer/api/useDayTurn.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it('asks everything again when the day turns in the department’s zone, and not before', () => {
  // 06:59:40 UTC is 23:59:40 in Denver, where standard time is seven hours behind (15 U.S.C. 263).
  vi.setSystemTime(new Date('2026-11-25T06:59:40Z'));
  const client = new QueryClient();
  const spoiled = vi.spyOn(client, 'invalidateQueries').mockResolvedValue();
  renderHook(() => useDayTurn('America/Denver'), {
    wrapper: ({ children }: { children: ReactNode }) => (
      <QueryClientProvider client={client}>{children}</QueryClientProvider>
    ),
  });
  document.dispatchEvent(new Event('visibilitychange'));
  expect(spoiled).not.toHaveBeenCalled();
  vi.advanceTimersByTime(60_000);
  expect(spoiled).toHaveBeenCalledTimes(1);
  vi.advanceTimersByTime(3_600_000);
  expect(spoiled).toHaveBeenCalledTimes(1);
});
