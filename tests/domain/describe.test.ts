/** A thing in a few words, as it is spoken of on the floor. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { inchText, describe as inWords } from '../../domain/describe.ts';

describe('a thing in words', () => {
  it('is hose by its size, use and length', () => {
    expect(inWords('hose', { diameter_in: '1.75', use: 'attack', length_ft: '50' })).toBe(
      '1¾ in attack hose, 50 ft',
    );
    expect(inWords('hose', { diameter_in: '5', use: 'supply', length_ft: 100 })).toBe(
      '5 in supply hose, 100 ft',
    );
    expect(inWords('hose', { use: 'occupant' })).toBe('Occupant use hose');
    expect(inWords('hose', {})).toBe('Hose');
  });

  it('is a ladder by its material, type and length', () => {
    expect(inWords('ladder', { material: 'aluminum', type: 'extension', length_ft: '24' })).toBe(
      'Aluminum extension ladder, 24 ft',
    );
    expect(inWords('ladder', { type: 'folding' })).toBe('Attic or folding ladder');
  });

  it('is an extinguisher by its type, a facepiece by its wearer, a compressor by its kind', () => {
    expect(inWords('extinguisher', { type: 'CO2', charge_lb: '20', rating: '10-B:C' })).toBe(
      'CO2 extinguisher, 20 lb, 10-B:C',
    );
    expect(inWords('extinguisher', {})).toBe('Extinguisher');
    expect(inWords('facepiece', { kind: 'full', size: 'medium', wearer: 'R. Alder' })).toBe(
      'Full facepiece, medium, R. Alder',
    );
    expect(inWords('facepiece', {})).toBe('Facepiece');
    expect(inWords('compressor', { kind: 'fill station' })).toBe('Fill station');
  });

  it('is a cylinder by its specification, construction and pressure', () => {
    expect(
      inWords('cylinder', { spec: 'DOT-SP 10915', construction: 'carbon', servicePressure_psi: 4500 }),
    ).toBe('DOT-SP 10915 full-wrap carbon cylinder, 4500 psi');
    expect(inWords('cylinder', { spec: '3AA' })).toBe('3AA cylinder');
  });

  it('is a rig by its kind and what it carries', () => {
    expect(inWords('apparatus', { kind: 'engine', pump_gpm: 1500, tank_gal: 750, aerial: 'none' })).toBe(
      'Engine, 1500 gpm, 750 gal',
    );
    expect(inWords('apparatus', { kind: 'quint', pump_gpm: 1000, aerial: 'ladder', aerial_ft: 75 })).toBe(
      'Quint, 1000 gpm, 75 ft aerial ladder',
    );
    expect(inWords('apparatus', { kind: 'ladder', aerial: 'platform' })).toBe('Ladder, platform');
    expect(inWords('apparatus', {})).toBe('Rig');
  });

  it('is a nozzle or an appliance by its size and kind, a nozzle also by its flow', () => {
    expect(inWords('nozzle', { kind: 'combination', coupling_in: '1.5', flow_gpm: 150 })).toBe(
      '1½ in combination nozzle, 150 gpm',
    );
    expect(inWords('nozzle', { kind: 'shutoff' })).toBe('Nozzle shutoff');
    expect(inWords('nozzle', {})).toBe('Nozzle');
    expect(inWords('appliance', { kind: 'gated wye', size_in: '2.5' })).toBe('2½ in gated wye');
    expect(inWords('appliance', { kind: 'eductor' })).toBe('Foam eductor');
    expect(inWords('appliance', {})).toBe('Hose appliance');
  });

  it('is foam by its type, proportion and quantity', () => {
    expect(inWords('foam', { type: 'AR-AFFF', proportion: '3 x 6 %', quantity_gal: '5' })).toBe(
      'AR-AFFF foam, 3 x 6 %, 5 gal',
    );
    expect(inWords('foam', { type: 'training' })).toBe('Training foam');
    expect(inWords('foam', {})).toBe('Foam concentrate');
  });

  it('is a pack by its maker and model, and anything else by its kind', () => {
    expect(inWords('pack', { maker: 'Larkspur', model: 'L4' })).toBe('Larkspur L4 SCBA pack');
    expect(inWords('equipment', { kind: 'chain saw' })).toBe('Chain saw');
    expect(inWords('equipment', {})).toBe('Other equipment');
    expect(inWords('unheard of', {})).toBe('Unheard of');
  });
});

describe('gear and tools in words', () => {
  it.each([
    ['turnout', { element: 'coat', ensemble: 'structural', size: '44 R' }, 'Structural coat, 44 R'],
    ['turnout', {}, 'Turnout gear'],
    ['rope', { kind: 'life safety', diameter_in: '0.5', length_ft: '200' }, '½ in life safety rope, 200 ft'],
    ['rope', {}, 'Rope'],
    ['gas-meter', { kind: 'multiple gas' }, 'Multiple gas meter'],
    ['calibration-gas', { gases: 'CO 60 ppm', lot: 'L-112' }, 'CO 60 ppm, lot L-112'],
    ['air-bag', { kind: 'bag', pressureClass: 'high' }, 'High pressure lifting bag'],
    ['air-bag', { kind: 'hose' }, 'Lifting bag hose'],
    ['hand-tool', { kind: 'axe' }, 'Axe'],
    ['hand-tool', { kind: 'other' }, 'Hand tool'],
    ['power-tool', { kind: 'rotary saw' }, 'Rotary saw'],
    ['rescue-tool', { kind: 'spreader', drive: 'battery' }, 'Battery spreader'],
    ['rescue-tool', { kind: 'spreader', drive: 'hose' }, 'Spreader'],
    ['winch', { kind: 'chain sling', length_ft: '10' }, 'Chain sling, 10 ft'],
    ['radio', { kind: 'portable' }, 'Portable radio'],
    ['suction-unit', { kind: 'battery' }, 'Battery suction unit'],
    ['cribbing', { kind: 'step chock', material: 'wood' }, 'Wood step chock'],
    ['strut', { kind: 'jack' }, 'Jack'],
    ['aed', {}, 'AED'],
  ] as const)('%s %o', (family, attributes, words) => expect(inWords(family, attributes)).toBe(words));
});

describe('inches', () => {
  it('are said with quarters and halves, and as they stand where there is no such fraction', () =>
    expect(['1.75', '2.5', '2.50', '0.25', '5.0', '5', '1.125', 3, null, undefined].map(inchText)).toEqual([
      '1¾',
      '2½',
      '2½',
      '¼',
      '5',
      '5',
      '1.125',
      '3',
      '',
      '',
    ]));
});
