/** Every question, by name. A question reads and never writes. */
import type { QuestionName } from '../api.ts';
import { carryHolders, carryPage, carryPreview } from './carry.ts';
import { chainsList } from './chains.ts';
import { changeoversList, rigChangeover } from './changeovers.ts';
import { checkoffPage, checkoffsList } from './checkoffs.ts';
import { defectsList } from './defects.ts';
import { departmentPage, departmentSummary, membersList, placesList } from './department.ts';
import { dueCounts, dueGroups, dueList } from './due.ts';
import { dueExplain } from './explain.ts';
import { exportItems, exportLedger, ledgerHeads } from './exports.ts';
import { fillCheck } from './fill-check.ts';
import { fillsList } from './fills.ts';
import { importPreview } from './import.ts';
import { incidentPage, incidentsList } from './incidents.ts';
import { itemFind, itemHistory, itemPage } from './items.ts';
import { kitPage, kitsList, kitTemplateQuestion } from './kits.ts';
import { ledgerVerify, vocabularyList } from './ledger.ts';
import { makesList } from './makes.ts';
import { itemMeters } from './meters.ts';
import { changesSince, notesList } from './notes.ts';
import { noticePage, noticesList } from './notices.ts';
import { paperMake } from './paper.ts';
import { photoGet } from './photos.ts';
import { rulebookPreview } from './preview.ts';
import { readinessNow } from './readiness.ts';
import { rigPage } from './rig-page.ts';
import { rigsList } from './rigs.ts';
import { rulebookEditions, rulebookHistory } from './rule-history.ts';
import { rulebookList } from './rulebook.ts';
import { searchAll } from './search.ts';
import { supplyHistory, supplyList, supplyReorder } from './supply.ts';
import { supplyShelf } from './supply-shelf.ts';
import { itemSpares } from './swap.ts';
import { swapsList } from './swaps.ts';
import { rulebookTrial } from './trial.ts';
import type { Question } from './types.ts';

const LIST = [
  dueList,
  dueCounts,
  dueGroups,
  dueExplain,
  itemFind,
  itemPage,
  itemHistory,
  searchAll,
  departmentSummary,
  departmentPage,
  placesList,
  membersList,
  rulebookList,
  rulebookTrial,
  rulebookHistory,
  rulebookEditions,
  rulebookPreview,
  makesList,
  itemMeters,
  ledgerVerify,
  importPreview,
  vocabularyList,
  readinessNow,
  changesSince,
  notesList,
  rigsList,
  rigPage,
  rigChangeover,
  changeoversList,
  itemSpares,
  exportItems,
  exportLedger,
  ledgerHeads,
  carryHolders,
  carryPage,
  carryPreview,
  checkoffPage,
  checkoffsList,
  chainsList,
  swapsList,
  incidentsList,
  incidentPage,
  defectsList,
  kitsList,
  kitPage,
  kitTemplateQuestion,
  noticesList,
  noticePage,
  supplyList,
  supplyReorder,
  supplyShelf,
  supplyHistory,
  photoGet,
  fillCheck,
  fillsList,
  paperMake,
] as unknown as Question[];

export const QUESTIONS: ReadonlyMap<string, Question> = new Map(LIST.map(q => [q.name as QuestionName, q]));
