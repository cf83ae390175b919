/** Special permits and exemptions that the book has heard of. */
import type { PermitOffer } from './types.ts';

/**
 * What the book can say of permits it has heard of. An offer, never a default: each is confirmed by the
 * department from the permit or the label in hand before anything is judged by it.
 */
export const PERMIT_OFFERS: readonly PermitOffer[] = [
  {
    permit: 'DOT-SP 10915',
    construction: 'carbon',
    months: 60,
    lifeMonths: 180,
    confidence: 'read',
    note: 'Fully wrapped carbon, aluminum lined; 15-year life. Early revisions of carbon permits were three years: read yours.',
  },
  {
    permit: 'DOT-SP 10945',
    construction: 'carbon',
    months: 60,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Expected of this family of permits; not seen.',
  },
  {
    permit: 'DOT-SP 13583',
    construction: 'carbon',
    months: 60,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Expected of this family of permits; not seen.',
  },
  {
    permit: 'DOT-E 11005',
    construction: 'carbon',
    months: 60,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Uncertain; not seen.',
  },
  {
    permit: 'DOT-SP 14232',
    construction: 'carbon',
    months: 60,
    lifeMonths: 'label',
    confidence: 'read',
    note: 'A longer-life carbon design: its life is what the label says.',
  },
  {
    permit: 'DOT-E 7235',
    construction: 'hoop',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Hoop wrapped, 2216 psi, 6351-T6 liner: also needs the crack examination.',
  },
  {
    permit: 'DOT-E 7277',
    construction: 'hoop',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Hoop wrapped, from memory; not seen.',
  },
  {
    permit: 'DOT-E 8162',
    construction: 'fiberglass',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
  {
    permit: 'DOT-SP 8718',
    construction: 'aramid',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
  {
    permit: 'DOT-E 9634',
    construction: 'fiberglass',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
  {
    permit: 'DOT-E 9894',
    construction: 'fiberglass',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
  {
    permit: 'DOT-E 10019',
    construction: 'fiberglass',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
];

/** What the table offers for a permit, under its newer or its older letters. */
export function permitOffered(permit: string): PermitOffer | undefined {
  const [letters, number] = permit.split(' ');
  const twin = `${letters === 'DOT-E' ? 'DOT-SP' : 'DOT-E'} ${number}`;
  const offer = PERMIT_OFFERS.find(o => o.permit === permit) ?? PERMIT_OFFERS.find(o => o.permit === twin);
  return offer && { ...offer, permit };
}
