/** What the killed process does, the same in the process that watches it. */
import type { ActRequest } from '../../../db/api.ts';
import { all, type Db } from '../../../db/store/statements.ts';
import { adminOf } from '../kit/opening.ts';

export const JOBS = ['import', 'record', 'migration'] as const;
export type Job = (typeof JOBS)[number];

export const RECORDS = 60;

/** A sheet of some hundred hoses with their last tests, on places that are not known yet. */
export function sheet(rows: number): string {
  const lines = ['Hose No.,Size (in),Length (ft),Use,Date Made,In Service,Location,Last Service Test,Result'];
  for (let i = 1; i <= rows; i++) {
    const unit = 40 + (i % 5);
    lines.push(
      `${unit}-${100 + i},${i % 2 ? '1.75' : '2.5'},50,Attack,2019-0${1 + (i % 9)},2020-01-15,Engine ${unit} hosebed,2026-0${1 + (i % 9)}-1${i % 9},Pass`,
    );
  }
  return `${lines.join('\n')}\n`;
}

export function importRequest(db: Db, bytes: Buffer): ActRequest {
  return {
    by: adminOf(db),
    deeds: [
      {
        action: 'import.commit',
        body: {
          name: 'hose.csv',
          bytes: bytes.toString('base64'),
          family: 'hose',
          accept: { places: 'all', permits: [] },
        },
      },
    ],
  };
}

/** Records one by one, each an act of its own. */
export function recordRequests(db: Db): ActRequest[] {
  const items = all<{ id: string }>(
    db,
    "SELECT t.id FROM items i JOIN things t ON t.key = i.key WHERE i.family = 'hose' ORDER BY i.key LIMIT ?",
    RECORDS,
  );
  return items.map(({ id }, i) => ({
    by: adminOf(db),
    deeds: [
      {
        action: 'record.add',
        body: {
          item: id,
          activity: 'service test',
          outcome: i % 4 === 0 ? 'fail' : 'pass',
          readings: { testPressure_psi: 300, held_s: 300 },
          on: '2026-11-25',
        },
      },
    ],
  }));
}
