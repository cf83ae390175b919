import { useEffect, useState } from 'react';
import { type HostProgress, host } from './transport.ts';

/** How far the host's long work has come, while it is waited for; null before it says anything. */
export function useHostProgress(waiting: boolean): HostProgress | null {
  const [progress, setProgress] = useState<HostProgress | null>(null);
  useEffect(() => {
    setProgress(null);
    return waiting ? host().onProgress?.(setProgress) : undefined;
  }, [waiting]);
  return progress;
}

/** `Writing Nov 2024, 6,053 of 12,055`. */
export function progressWords({ done, total, what }: HostProgress): string {
  return `${what}, ${done.toLocaleString('en-US')} of ${total.toLocaleString('en-US')}`;
}
