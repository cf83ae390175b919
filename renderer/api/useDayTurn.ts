import { useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';

const LOOK_MS = 30_000;

/**
 * When the department's day turns, everything is asked again: what is overdue, and the date that forms begin with.
 * The clock is looked at often rather than waited for, since a computer may sleep through midnight.
 * @param zone the department's IANA zone
 */
export function useDayTurn(zone: string): void {
  const client = useQueryClient();
  useEffect(() => {
    const dayThere = new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' });
    let day = dayThere.format(new Date());
    const look = () => {
      const now = dayThere.format(new Date());
      if (now === day) return;
      day = now;
      void client.invalidateQueries();
    };
    const timer = setInterval(look, LOOK_MS);
    document.addEventListener('visibilitychange', look);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', look);
    };
  }, [client, zone]);
}
