import { useNavigate } from '@tanstack/react-router';
import type { DepartmentSummary } from '../../../db/api.ts';

/** The way to what is known at a place: a rig to its page, a station or another place to what is due there. */
export function usePlaces(summary: DepartmentSummary | null | undefined): (place: string) => void {
  const navigate = useNavigate();
  return place => {
    const rig = summary?.rigs.find(r => r.name === place);
    if (rig) return void navigate({ to: '/rigs/$rig', params: { rig: rig.id }, search: {} });
    const station = summary?.stations.find(s => s.name === place);
    return void navigate({
      to: '/due',
      search: station ? { station: station.id, unit: 'none' } : { text: place, state: 'all' },
    });
  };
}
