/** Every action, by name. Actions are the only writers of the store. */

import { agencyAmend, departmentAmend, memberAmend, placeAmend, unitAmend } from './amend.ts';
import { carrySet } from './carry.ts';
import { rigChangeover } from './changeover.ts';
import { checkoffSign } from './checkoff-sign.ts';
import * as checkoffs from './checkoffs.ts';
import * as condition from './condition.ts';
import { defectClose, defectReport } from './defects.ts';
import { cylinderFill } from './fills.ts';
import { incidentSettle } from './incident-settle.ts';
import { incidentAmend, incidentFound, incidentOpen } from './incidents.ts';
import { itemAmend, itemAssign, itemMove, itemReceive } from './items.ts';
import * as kits from './kits.ts';
import { noteClose, noteWrite } from './notes.ts';
import { noticeExpect, noticeSettle } from './notice-things.ts';
import { noticeClose, noticeIssue } from './notices.ts';
import * as people from './people.ts';
import { photoAdd } from './photos.ts';
import * as places from './places.ts';
import { recordAdd, voidDeed } from './records.ts';
import * as repairs from './repairs.ts';
import { itemRead, rigArrange, rigRead, rigReturn, rigRide, rigTakeOut } from './rigs.ts';
import { importNote, permitConfirm, policyChoose, profileSet, rulebookAdopt, rulebookEnd } from './rules.ts';
import { checkoffMissed, checkoffSchedule } from './schedules.ts';
import * as stock from './stock.ts';
import { stockCount } from './stock-count.ts';
import * as stockFlow from './stock-flow.ts';
import { swapMany, swapSettle } from './swaps.ts';
import type { Action } from './types.ts';
import { rigWalkRound } from './walk-round.ts';

const LIST: readonly Action[] = [
  people.departmentOpen,
  people.memberAdd,
  people.memberEntitle,
  people.memberPin,
  places.stationAdd,
  places.unitAdd,
  places.rigAdd,
  places.placeAdd,
  places.agencyAdd,
  itemReceive,
  itemAmend,
  itemMove,
  itemAssign,
  condition.itemTagOut,
  condition.itemLimit,
  repairs.itemSendToRepair,
  repairs.itemRepaired,
  repairs.itemOweRetest,
  condition.itemReturn,
  condition.itemHold,
  condition.itemRelease,
  condition.itemHandOver,
  condition.itemMissing,
  condition.itemSearched,
  condition.itemFound,
  condition.itemRetire,
  condition.itemDispose,
  recordAdd,
  photoAdd,
  cylinderFill,
  departmentAmend,
  memberAmend,
  agencyAmend,
  unitAmend,
  placeAmend,
  rigRide,
  rigChangeover,
  rigTakeOut,
  rigReturn,
  rigRead,
  itemRead,
  rigArrange,
  rigWalkRound,
  carrySet,
  checkoffSchedule,
  checkoffMissed,
  checkoffs.checkoffStart,
  checkoffs.checkoffMark,
  checkoffSign,
  checkoffs.checkoffCountersign,
  checkoffs.checkoffSetAside,
  swapMany,
  swapSettle,
  incidentOpen,
  incidentAmend,
  incidentFound,
  incidentSettle,
  defectReport,
  defectClose,
  stock.stockAdd,
  stock.stockAmend,
  stock.stockPar,
  stock.stockReceive,
  stockCount,
  stockFlow.stockIssue,
  stockFlow.stockMove,
  stockFlow.stockWriteOff,
  kits.kitTemplate,
  kits.kitSeal,
  kits.kitOpen,
  kits.kitCheck,
  noteWrite,
  noteClose,
  noticeIssue,
  noticeSettle,
  noticeExpect,
  noticeClose,
  rulebookAdopt,
  rulebookEnd,
  profileSet,
  policyChoose,
  permitConfirm,
  importNote,
  voidDeed,
];

export const ACTIONS: ReadonlyMap<string, Action> = new Map(LIST.map(a => [a.name, a]));
