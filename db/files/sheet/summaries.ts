/** A row's fields as its family sums them up, and everything else beside it. */
type Value = string | number | boolean | null;

/** By family: what a row becomes, each key with the field it is taken from. */
const BECOMES: Readonly<Record<string, readonly (readonly [key: string, field: string])[]>> = {
  hose: [
    ['diameter_in', 'diameter_in'],
    ['length_ft', 'length_ft'],
    ['made', 'made'],
    ['inService', 'inService'],
    ['lastServiceTest', 'last service test'],
    ['outcome', 'outcome service test'],
  ],
  ladder: [['length_ft', 'length_ft']],
  cylinder: [
    ['spec', 'spec'],
    ['construction', 'construction'],
    ['servicePressure_psi', 'servicePressure_psi'],
    ['made', 'made'],
    ['lastRequalification', 'last requalification'],
  ],
  pack: [
    ['made', 'made'],
    ['inService', 'inService'],
    ['lastFlowTest', 'last flow test'],
    ['lastInspection', 'last inspection'],
  ],
  equipment: [
    ['kind', 'kind'],
    ['made', 'made'],
    ['inService', 'inService'],
    ['lastInspection', 'last inspection'],
  ],
};

/** The family's summary; a length that is whole is a number, any other decimal is text. */
export function becomesOf(
  family: string,
  fields: Readonly<Record<string, Value>>,
): Record<string, string | number | null> {
  const becomes: Record<string, string | number | null> = {};
  for (const [key, field] of BECOMES[family] ?? []) {
    const value = fields[field] ?? null;
    const plain = typeof value === 'boolean' ? null : value;
    becomes[key] =
      key === 'length_ft' && typeof plain === 'string' && /^\d+$/.test(plain) ? Number(plain) : plain;
  }
  return becomes;
}

/** Everything else that was read: `last service test` as `lastServiceTest`, the rest under its field's name. */
export function detailsOf(family: string, fields: Readonly<Record<string, Value>>): Record<string, Value> {
  const summed = new Set((BECOMES[family] ?? []).map(([, field]) => field));
  const details: Record<string, Value> = {};
  for (const [field, value] of Object.entries(fields)) {
    if (field === 'number' || summed.has(field)) continue;
    details[camel(field)] = value;
  }
  return details;
}

function camel(field: string): string {
  return field.replace(/ (\w)/g, (_, letter: string) => letter.toUpperCase());
}
