/** Pressures read at a check-off, told of the bottles they are of. */
import { z } from 'zod';
import type { CarryLine } from '../../domain/carry/types.ts';
import type { PlaceMark } from '../../domain/checkoffs/marks.ts';
import { GAUGE_UNITS, type GaugeUnit } from '../../domain/facts.ts';
import { id } from './fields.ts';
import type { Look } from './types.ts';

export const gauge = z.strictObject({ item: id, reading: z.string(), unit: z.enum(GAUGE_UNITS) });

export interface Gauge {
  item: string;
  /** A decimal as text. */
  reading: string;
  unit: GaugeUnit;
}

/**
 * What the marks of a sheet read of packs and cylinders, where the thing was named: a count of six bottles at 4500 psi
 * says of none which it was. The gauge of the one pack of a place is that of the one bottle that lies with it; where
 * several do, or none, it is told of the pack alone.
 */
export function gaugesOf(look: Look, lines: readonly CarryLine[], marks: readonly PlaceMark[]): Gauge[] {
  const byLine = new Map(lines.map(l => [l.line, l]));
  return marks.flatMap(({ at, operated, exceptions }) => {
    const read = [
      ...operated,
      ...exceptions.filter(e => e.kind === 'low').map(e => ({ ...e, line: e.line ?? '' })),
    ];
    return read.flatMap(({ line: name, item, reading }): Gauge[] => {
      const line = byLine.get(name);
      const unit = GAUGE_UNITS.find(u => u === line?.reading?.unit);
      if (!line || !unit || item === null || reading === null || !/^\d+(\.\d+)?$/.test(reading)) return [];
      if (line.family !== 'pack' && line.family !== 'cylinder') return [];
      const isAlone = line.family === 'pack' && at !== null && look.lyingIn(at, 'pack').length === 1;
      const bottles = isAlone ? look.lyingIn(at, 'cylinder') : [];
      const [bottle] = bottles;
      return [item, ...(bottle !== undefined && bottles.length === 1 ? [bottle] : [])].map(named => ({
        item: named,
        reading,
        unit,
      }));
    });
  });
}
