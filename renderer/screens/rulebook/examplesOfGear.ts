/** A sensible piece of gear, a tool or an instrument of each family to try the book on. */
import { addDays, addMonths, type Day, dayText } from '../../../domain/calendar/day.ts';
import type { Example } from './examples.ts';

/** What was passed last, and how many days ago. */
type Passed = readonly (readonly [activity: string, daysAgo: number])[];

/** @returns undefined for a family that is no gear */
export function gearExampleOf(family: string, now: Day): Example | undefined {
  const months = (count: number) => dayText(addMonths(now, count));
  const month = (count: number) => months(count).slice(0, 7);
  const placed = { made: month(-40), inService: months(-38) };
  const known: Readonly<Record<string, readonly [Example['attributes'], Passed]>> = {
    turnout: [
      { element: 'coat', ensemble: 'structural', ...placed },
      [
        ['advanced inspection', 330],
        ['advanced cleaning', 150],
        ['routine inspection', 6],
      ],
    ],
    radio: [
      { kind: 'portable', ...placed },
      [
        ['performance test', 330],
        ['operational check', 1],
      ],
    ],
    battery: [{ kind: 'radio battery', chemistry: 'lithium', ...placed }, [['capacity test', 330]]],
    imager: [
      placed,
      [
        ['service', 330],
        ['operational check', 4],
      ],
    ],
    'gas-meter': [
      { kind: 'multiple gas', sensorsExpire: month(8), ...placed },
      [
        ['full calibration', 20],
        ['bump test', 1],
      ],
    ],
    'calibration-gas': [{ gases: 'CO 60 ppm', expires: month(5) }, [['inspection', 90]]],
    'hand-tool': [{ kind: 'axe', ...placed }, [['inspection', 330]]],
    'power-tool': [
      { kind: 'chain saw', power: 'two-stroke mix', ...placed },
      [
        ['service', 330],
        ['run check', 5],
      ],
    ],
    'rescue-tool': [
      { kind: 'spreader', drive: 'battery', ...placed },
      [
        ['service', 330],
        ['operational check', 5],
      ],
    ],
    'air-bag': [
      { kind: 'bag', pressureClass: 'high', made: month(-174), inService: months(-172) },
      [['pressure test', 330]],
    ],
    strut: [{ kind: 'jack', ...placed }, [['thorough inspection', 160]]],
    cribbing: [{ kind: 'step chock', material: 'wood', ...placed }, [['inspection', 330]]],
    winch: [{ kind: 'chain sling', ...placed }, [['thorough inspection', 330]]],
    rope: [
      { kind: 'life safety', useRate: 'monthly', diameter_in: '0.5', length_ft: '200', ...placed },
      [['inspection', 24]],
    ],
    harness: [{ kind: 'life safety harness', ...placed }, [['inspection', 330]]],
    hardware: [{ kind: 'carabiner', ...placed }, [['inspection', 330]]],
    'fall-protection': [{ kind: 'body harness', ...placed }, [['competent inspection', 330]]],
    kit: [{ kind: 'Trauma bag', contentsExpire: months(4), ...placed }, [['full count', 12]]],
    aed: [
      { padsExpire: month(2), childPadsExpire: month(9), batteryExpires: month(30), ...placed },
      [
        ['operational test', 160],
        ['readiness check', 5],
      ],
    ],
    'patient-monitor': [
      { padsExpire: month(3), ...placed },
      [
        ['service', 330],
        ['readiness check', 1],
      ],
    ],
    'suction-unit': [
      { kind: 'battery', ...placed },
      [
        ['vacuum test', 330],
        ['readiness check', 5],
      ],
    ],
    'oxygen-regulator': [
      { kind: 'regulator', ...placed },
      [
        ['flow test', 330],
        ['inspection', 24],
      ],
    ],
  };
  const example = known[family];
  if (!example) return undefined;
  const [attributes, passed] = example;
  return {
    attributes,
    history: passed.map(([activity, ago]) => ({
      activity,
      on: dayText(addDays(now, -ago)),
      outcome: 'pass',
    })),
  };
}
