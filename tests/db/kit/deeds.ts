/** A deed of every action that succeeds in a department that has been made ready for it. */

import { all } from '../../../db/store/statements.ts';
import { SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import { aHose, type Ground, type TestDepartment } from './department.ts';
import { png, sent, sha256Of } from './pictures.ts';

export interface ReadyDeed {
  action: string;
  body: Record<string, unknown>;
}

/** Make the department ready for each action and say the deed; each is given a thing of its own. */
export function everyDeed(d: TestDepartment, g: Ground): ReadyDeed[] {
  let n = 0;
  const hose = () => aHose(d, `T-${++n}`, { place: g.bed });
  const after = (action: string, body: Record<string, unknown>) => {
    const item = hose();
    d.must(action, { item, ...body });
    return item;
  };
  const member = d.must('member.add', { number: `M${++n}`, name: 'J. Okafor', position: 'driver' });
  const note = d.must('note.write', { text: 'Generator hard to start' });
  const [department] = all<{ id: string }>(d.db, "SELECT id FROM things WHERE kind = 'department'").map(
    t => t.id,
  );
  const [requirement] = SHIPPED_REQUIREMENTS;
  const deed = (action: string, body: Record<string, unknown>): ReadyDeed => ({ action, body });
  const listed = d.must('carry.set', {
    of: g.unit,
    lines: [{ what: 'Spanner wrench', qty: 4, min: 2, place: 'L1' }],
  });
  const weekly = {
    title: 'Weekly inventory',
    every: { kind: 'weekly', weekday: 6 },
    dueBy: '12:00',
    on: '2026-01-01',
  };
  const schedule = d.must('checkoff.schedule', { of: g.unit, ...weekly });
  const started = '2026-01-02T07:10';
  const draft = (marked: boolean) => {
    const checkoff = d.must('checkoff.start', { of: g.unit, started });
    if (marked) d.must('checkoff.mark', { checkoff, marks: [{ place: 'L1', present: true }] });
    return checkoff;
  };
  const signer = d.must('member.add', { number: `M${++n}`, name: 'T. Alba', position: 'driver' });
  const signed = (by: string) => {
    const checkoff = draft(true);
    d.must('checkoff.sign', { checkoff, finished: started }, { by });
    return checkoff;
  };
  const notice = (serial: string) =>
    d.must('notice.issue', {
      title: `Coupling may crack ${++n}`,
      kind: 'recall',
      family: 'hose',
      serialFrom: serial,
      serialTo: serial,
      issuedBy: 'Juniper Hose Works',
      toDo: 'Take out of use.',
    });
  const recalled = (serial: string) => ({
    item: aHose(d, `T-${++n}`, { serial }),
    notice: notice(serial),
  });
  const stock = () => {
    const id = d.must('stock.add', { what: `Gloves ${++n}`, unit: 'box', perBox: 100 });
    d.must('stock.receive', { stock: id, place: g.rack, amount: 300, lot: 'A7', expires: '2028-03' });
    return id;
  };
  const template = d.must('kit.template', { what: 'Trauma bag' });
  const lines = [{ what: 'Tourniquet', qty: 2, min: 1, place: 'main' }];
  const content = `${d.must('carry.set', { of: template, lines })}.0`;
  const kit = () =>
    d.must('item.receive', { family: 'kit', number: `K-${++n}`, attributes: { kind: 'Trauma bag' } });
  const sealedKit = () => {
    const item = kit();
    d.must('kit.seal', { item, seal: `${++n}`, counts: [{ line: content, amount: 2 }], on: '2026-11-01' });
    return item;
  };
  const picture = png(++n);
  d.must('photo.add', { of: hose(), photos: ['#0'] }, { attachments: [sent(picture)] });
  const pickedUp = {
    name: 'Two-alarm fire',
    units: [g.unit],
    families: ['ladder'],
    on: '2026-01-04T02:10',
  };
  const incident = () => d.must('incident.open', pickedUp);
  /** A ladder of the rack was read on the rig. */
  const settled = () => {
    const number = `L-${++n}`;
    d.must('item.receive', { family: 'ladder', number, place: g.rack });
    const opened = incident();
    d.must('incident.found', { incident: opened, rig: g.rig, reads: [{ number, used: true }] });
    return { incident: opened };
  };
  return [
    deed('member.add', { number: `M${++n}`, name: 'S. Lind', position: 'firefighter' }),
    deed('member.entitle', { member, position: 'logistics' }),
    deed('member.pin', { member }),
    deed('station.add', { name: `Station ${++n}` }),
    deed('unit.add', { name: `Engine ${++n}`, station: g.station }),
    deed('rig.add', { name: `Reserve R-${++n}`, unit: g.unit }),
    deed('place.add', { name: `shelf ${++n}`, kind: 'storeroom', under: g.station }),
    deed('agency.add', { name: 'Alder Cylinder Works', rin: 'B456' }),
    deed('department.amend', { department, units: 'SI' }),
    deed('member.amend', { member, name: 'N. Cottonwood' }),
    deed('agency.amend', { agency: g.agency, rinExpires: '2031-04-30' }),
    deed('unit.amend', { unit: g.unit, kind: 'quint' }),
    deed('place.amend', { place: g.bed, name: 'hosebed officer side' }),
    deed('rig.changeover', {
      unit: g.unit,
      from: g.rig,
      to: d.must('rig.add', { name: `Reserve R-${++n}` }),
      on: '2026-11-24T09:10',
    }),
    deed('rig.ride', { rig: g.rig, unit: null }),
    deed('rig.takeOut', { rig: g.rig, condition: 'limited', reason: 'Mirror cracked' }),
    deed('rig.return', { rig: g.rig }),
    deed('rig.read', { rig: g.rig, meter: 'miles', reading: 41_200 }),
    deed('rig.walkRound', { rig: g.rig, answers: { 'leak.fuel': 'none' } }),
    deed('rig.arrange', { rig: g.rig, boxes: [] }),
    deed('note.write', { text: 'Fuel card is in the visor' }),
    deed('note.close', { note }),
    deed('notice.issue', {
      title: 'Lens retainer may let go',
      kind: 'stop use',
      family: 'facepiece',
      model: 'Vista 3',
      issuedBy: 'Maker B',
      toDo: 'Take out of use.',
    }),
    deed('notice.settle', { ...recalled('K-1'), how: 'inspected and kept' }),
    deed('notice.expect', { notice: notice('K-2'), serial: 'K-2' }),
    deed('notice.close', {
      // Nothing of this family is in the department.
      notice: d.must('notice.issue', {
        title: 'Battery door may open',
        kind: 'recall',
        family: 'imager',
        model: 'Glow 1',
        issuedBy: 'Maker C',
        toDo: 'Look at the door.',
      }),
      note: 'We have none',
    }),
    deed('item.receive', { family: 'hose', number: `T-${++n}`, place: g.bed }),
    deed('item.read', {
      item: d.must('item.receive', { family: 'cylinder', number: `C-${++n}`, place: g.rack }),
      meter: 'fills',
      reading: 12,
    }),
    deed('item.amend', { item: hose(), attributes: { made: '2020-05' }, why: 'Misread stencil' }),
    deed('item.move', { item: hose(), to: g.rack }),
    deed('item.assign', { item: hose(), assignment: 'reserve' }),
    deed('item.tagOut', { item: hose(), reason: 'Cut' }),
    deed('item.limit', { item: hose(), reason: 'Training ground only' }),
    deed('item.sendToRepair', { item: hose(), vendor: g.vendor }),
    deed('item.repaired', { item: hose(), kind: 'recoupled' }),
    deed('item.oweRetest', { item: hose(), trigger: 'suspected damage' }),
    deed('item.return', { item: after('item.tagOut', { reason: 'Cut' }) }),
    deed('item.hold', { item: hose(), reason: 'Burst at a working fire' }),
    deed('item.release', { item: after('item.hold', { reason: 'Burst' }), note: 'Investigator done' }),
    deed('item.missing', { item: hose() }),
    deed('item.found', { item: after('item.missing', {}), place: g.rack }),
    deed('item.retire', { item: hose(), reason: 'Worn' }),
    deed('item.dispose', { item: hose(), how: 'Cut up' }),
    deed('record.add', { item: hose(), activity: 'service test', outcome: 'pass' }),
    deed('photo.add', { of: hose(), photos: [sha256Of(picture)], note: 'The stencil' }),
    deed('cylinder.fill', {
      item: d.must('item.receive', { family: 'cylinder', number: `C-${++n}`, place: g.rack }),
      to_psi: 4500,
    }),
    deed('item.searched', { item: after('item.missing', {}), where: 'Hosebed of Engine 31' }),
    deed('item.handOver', { item: after('item.hold', { reason: 'Burst' }), to: 'Evidence locker' }),
    deed('carry.set', {
      of: g.unit,
      lines: [{ line: `${listed}.0`, what: 'Spanner wrench', qty: 6, min: 4, place: 'L1' }],
    }),
    deed('checkoff.schedule', { of: g.unit, ...weekly }),
    deed('checkoff.missed', { of: g.unit, schedule, for: { on: '2026-01-03' }, reason: 'At a fire' }),
    deed('checkoff.start', { of: g.unit, started }),
    deed('checkoff.mark', { checkoff: draft(false), marks: [{ place: 'L1', present: true }] }),
    deed('checkoff.sign', { checkoff: draft(true), finished: started }),
    deed('checkoff.countersign', { checkoff: signed(signer) }),
    deed('checkoff.setAside', { checkoff: draft(false), why: 'Begun on the wrong rig' }),
    deed('incident.open', pickedUp),
    deed('incident.amend', { incident: incident(), agencies: ['Cottonwood Basin Fire'] }),
    deed('incident.found', { incident: incident(), rig: g.rig, reads: [{ number: 'X-1' }] }),
    deed('incident.settle', settled()),
    deed('swap.many', { of: g.unit, family: 'hose', down: 2, up: 2, place: g.rack }),
    deed('swap.settle', {
      swap: d.must('swap.many', { of: g.unit, family: 'hose', down: 2, up: 0, place: g.rack }),
      giveUp: 'Nobody wrote them down',
    }),
    deed('defect.report', { of: g.unit, kind: 'low', note: 'Foam down to 3 gal' }),
    deed('defect.close', {
      defect: d.must('defect.report', { of: g.unit, kind: 'low', note: 'Fuel' }),
      how: 'restocked',
    }),
    deed('kit.template', { what: `Airway bag ${++n}` }),
    deed('kit.seal', { item: kit(), seal: `${++n}`, counts: [{ line: content, amount: 2 }] }),
    deed('kit.open', { item: kit(), why: 'Used on a call' }),
    deed('kit.check', { item: sealedKit(), seal: 'another', intact: true }),
    deed('stock.add', { what: 'Absorbent, bag' }),
    deed('stock.amend', { stock: stock(), what: `Gloves, large ${++n}` }),
    deed('stock.par', { stock: stock(), place: g.rack, par: 600, min: 300 }),
    deed('stock.receive', { stock: stock(), place: g.rack, amount: 100, lot: 'B2', expires: '2029-01' }),
    deed('stock.count', { stock: stock(), place: g.rack, counts: [{ lot: 'A7', amount: 280 }] }),
    deed('stock.issue', { stock: stock(), place: g.rack, amount: 20, to: g.unit }),
    deed('stock.move', { stock: stock(), from: g.rack, to: g.bed, amount: 100 }),
    deed('stock.writeOff', { stock: stock(), place: g.rack, amount: 5, why: 'Torn' }),
    deed('rulebook.adopt', { requirements: [requirement], from: '2026-01-01' }),
    deed('rulebook.end', {
      requirement: 'hose.occupant-service-test',
      from: '2026-02-01',
      reason: 'The district has no building hose.',
      authority: 'Fire chief',
    }),
    deed('profile.set', { state: 'WA', kind: 'career' }),
    deed('policy.choose', { policy: 'charged past due', choice: 'pull' }),
    deed('permit.confirm', {
      permit: 'DOT-SP 10915',
      construction: 'carbon',
      months: 60,
      lifeMonths: 180,
      basis: 'the permit in hand',
    }),
    deed('import.note', {
      file: 'hose.csv',
      sha256: '0'.repeat(64),
      family: 'hose',
      rows: 1,
      accepted: 1,
      refused: 0,
    }),
    deed('void', {
      target: d.must('item.assign', { item: hose(), assignment: 'reserve' }),
      why: 'Wrong hose',
    }),
  ];
}
