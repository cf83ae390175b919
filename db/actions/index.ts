/** Every action, by name. Actions are the only writers of the store. */
import * as condition from './condition.ts';
import { itemAmend, itemAssign, itemMove, itemReceive } from './items.ts';
import { recordAdd, voidDeed } from './records.ts';
import { importNote, permitConfirm, policyChoose, rulebookAdopt } from './rules.ts';
import * as setup from './setup.ts';
import type { Action } from './types.ts';

const LIST: readonly Action[] = [
  setup.departmentOpen,
  setup.memberAdd,
  setup.memberEntitle,
  setup.memberPin,
  setup.stationAdd,
  setup.unitAdd,
  setup.rigAdd,
  setup.placeAdd,
  setup.agencyAdd,
  itemReceive,
  itemAmend,
  itemMove,
  itemAssign,
  condition.itemTagOut,
  condition.itemLimit,
  condition.itemSendToRepair,
  condition.itemRepaired,
  condition.itemOweRetest,
  condition.itemReturn,
  condition.itemHold,
  condition.itemRelease,
  condition.itemMissing,
  condition.itemFound,
  condition.itemRetire,
  condition.itemDispose,
  recordAdd,
  rulebookAdopt,
  policyChoose,
  permitConfirm,
  importNote,
  voidDeed,
];

export const ACTIONS: ReadonlyMap<string, Action> = new Map(LIST.map(a => [a.name, a]));
