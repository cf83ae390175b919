import type { UnitSystem } from '../../../domain/units.ts';
import { useAsk } from '../../api/ask.ts';

/** The units the department reads measures in. */
export const useMeasures = (): UnitSystem => useAsk('department.summary', {}).data?.measures ?? 'US';
