/** A thing in a few words, from its family and attributes: `1¾ in attack hose, 50 ft`. */
import { capital } from './capital.ts';
import type { Values } from './facts.ts';
import { familyOf } from './rulebook/index.ts';

/** Fractions of an inch as they are spoken of on the floor. */
const FRACTIONS: Readonly<Record<string, string>> = { '25': '¼', '5': '½', '75': '¾' };

/** The short description of a thing, for lists and headings. */
export function describe(family: string, attributes: Values): string {
  const title = (key: string) => {
    const value = attributes[key];
    const known = familyOf(family)
      ?.attributes.find(a => a.key === key)
      ?.choices?.find(c => c.value === value);
    return known?.title ?? (typeof value === 'string' ? value : '');
  };
  const choice = (key: string) => title(key).toLowerCase();
  const amount = (key: string, unit: string) => (attributes[key] ? `${attributes[key]} ${unit}` : '');
  const length = typeof attributes.length_ft === 'number' || typeof attributes.length_ft === 'string';
  const feet = length ? `, ${attributes.length_ft} ft` : '';
  switch (family) {
    case 'apparatus': {
      const aerial = choice('aerial') === 'ladder' ? 'aerial ladder' : choice('aerial');
      const device = aerial === 'none' ? '' : joined(amount('aerial_ft', 'ft'), aerial);
      return listed(title('kind') || 'Rig', amount('pump_gpm', 'gpm'), amount('tank_gal', 'gal'), device);
    }
    case 'nozzle': {
      const coupling = inchText(attributes.coupling_in);
      const kind = choice('kind');
      const named = kind === 'shutoff' ? 'nozzle shutoff' : joined(kind === 'other' ? '' : kind, 'nozzle');
      return listed(capital(joined(coupling && `${coupling} in`, named)), amount('flow_gpm', 'gpm'));
    }
    case 'appliance': {
      const size = inchText(attributes.size_in);
      const kind = choice('kind');
      return capital(joined(size && `${size} in`, kind === '' || kind === 'other' ? 'hose appliance' : kind));
    }
    case 'foam': {
      const type = title('type');
      const foam = type === '' ? 'Foam concentrate' : type.endsWith('foam') ? type : `${type} foam`;
      return listed(foam, attributes.proportion, amount('quantity_gal', 'gal'));
    }
    case 'hose': {
      const diameter = inchText(attributes.diameter_in);
      return capital(joined(diameter && `${diameter} in`, choice('use'), 'hose') + feet);
    }
    case 'ladder':
      return capital(joined(choice('material'), choice('type'), 'ladder') + feet);
    case 'cylinder': {
      const pressure = attributes.servicePressure_psi;
      return capital(
        joined(attributes.spec, choice('construction'), 'cylinder') + (pressure ? `, ${pressure} psi` : ''),
      );
    }
    case 'pack':
      return capital(joined(attributes.maker, attributes.model, 'SCBA pack'));
    case 'facepiece':
      return listed(
        choice('kind') === '' ? 'Facepiece' : capital(choice('kind')),
        attributes.size,
        attributes.wearer,
      );
    case 'compressor':
      return capital(choice('kind') || 'air compressor');
    case 'extinguisher':
      return listed(
        capital(joined(attributes.type, 'extinguisher')),
        amount('charge_lb', 'lb'),
        attributes.rating,
      );
    case 'turnout': {
      const element = choice('element');
      const size =
        typeof attributes.size === 'string' && attributes.size !== '' ? `, ${attributes.size}` : '';
      return capital((element ? joined(choice('ensemble'), element) : 'turnout gear') + size);
    }
    case 'rope': {
      const diameter = inchText(attributes.diameter_in);
      return capital(joined(diameter && `${diameter} in`, choice('kind'), 'rope') + feet);
    }
    case 'gas-meter':
      // "Multiple gas meter", not "multiple gas gas meter".
      return capital(
        `${joined(
          choice('kind')
            .replace(/^other$/, '')
            .replace(/ gas$/, ''),
          'gas',
        )} meter`,
      );
    case 'calibration-gas': {
      const lot =
        typeof attributes.lot === 'string' && attributes.lot !== '' ? `, lot ${attributes.lot}` : '';
      return capital(joined(attributes.gases) || 'calibration gas') + lot;
    }
    case 'suction-unit':
      return capital(joined(choice('kind'), 'suction unit'));
    case 'cribbing':
      return capital(joined(choice('material'), choice('kind') || 'cribbing'));
    case 'air-bag':
      return capital(
        joined(choice('pressureClass') && `${choice('pressureClass')} pressure`, liftingPart(choice('kind'))),
      );
    case 'power-tool':
    case 'hand-tool':
      return capital(choice('kind').replace(/^other$/, '') || (familyOf(family)?.title ?? family));
    case 'rescue-tool': {
      const drive = choice('drive');
      const driven = drive === 'battery' || drive === 'hand' ? drive : '';
      return capital(joined(driven, choice('kind')) || 'rescue tool');
    }
    case 'winch':
      return capital((choice('kind') || 'winch, chain or sling') + feet);
    case 'radio':
      return capital(choice('kind') === 'portable' ? 'portable radio' : choice('kind') || 'portable radio');
    default:
      return capital(joined(attributes.kind) || (familyOf(family)?.title ?? family));
  }
}

/** A lifting bag and its parts: a hose alone would be taken for another hose. */
function liftingPart(kind: string): string {
  return kind === '' || kind === 'bag' ? 'lifting bag' : `lifting bag ${kind}`;
}

/** Inches with the usual fraction: `"1.75"` is `1¾`, `"2.5"` is `2½`, `"5.0"` is `5`. */
export function inchText(value: unknown): string {
  if (typeof value !== 'string' && typeof value !== 'number') return '';
  const [whole = '', fraction = ''] = String(value).split('.');
  const trimmed = fraction.replace(/0+$/, '');
  if (trimmed === '') return whole;
  const mark = FRACTIONS[trimmed];
  return mark === undefined ? `${whole}.${trimmed}` : `${whole === '0' ? '' : whole}${mark}`;
}

/** Words and figures with commas between, without those that are not there. */
function listed(...parts: unknown[]): string {
  return parts.filter(p => typeof p === 'string' && p !== '').join(', ');
}

function joined(...words: unknown[]): string {
  return words.filter(w => typeof w === 'string' && w !== '').join(' ');
}
