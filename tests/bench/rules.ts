/** A change of the rule book: what its preview takes, and what its commit takes, on things of one family. */
import { copyFileSync, rmSync } from 'node:fs';
import { act } from '../../db/store/act.ts';
import { ask } from '../../db/store/ask.ts';
import { openForWriting } from '../../db/store/open.ts';
import { all } from '../../db/store/statements.ts';
import { shippedRequirement } from '../../domain/rulebook/index.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';
import { adminOf } from '../db/kit/opening.ts';
import { clock } from './departments.ts';
import type { Measured } from './measure.ts';
import { median } from './timing.ts';

const WHO = { reason: 'The district tests twice a year.', authority: 'Fire chief' };

/** The hose test every so many months, from the opening on: half of the things of a department are hose. */
function everySoOften(months: number): Requirement {
  const known = shippedRequirement('hose.service-test');
  if (known?.clock.kind !== 'since last') throw new Error('The hose test counts from the last one.');
  return { ...known, clock: { ...known.clock, every: { months } } };
}

export async function changingRules(file: string, runs: number): Promise<Measured[]> {
  const ours = `${file}.rules`;
  copyFileSync(file, ours);
  const db = openForWriting(ours);
  const by = adminOf(db);
  const preview: number[] = [];
  const commit: number[] = [];
  const bare: number[] = [];
  for (let run = -1; run < runs; run++) {
    const change = { requirements: [everySoOften(6 + (run & 1))], from: 'opening', ...WHO };
    let began = performance.now();
    const { requirements, ...said } = change;
    const told = await ask(db, clock, 'rulebook.preview', { adopt: requirements, ...said });
    const previewTook = performance.now() - began;
    if (!told.ok) throw new Error(told.error.message);
    began = performance.now();
    const answer = act(db, clock, { by, deeds: [{ action: 'rulebook.adopt', body: change }] });
    const commitTook = performance.now() - began;
    if (!answer.ok) throw new Error(answer.error.message);
    began = performance.now();
    all(db, `SELECT f."values" FROM items i JOIN facts f ON f.thing = i.key WHERE i.family = 'hose'`);
    all(db, `SELECT attributes FROM items WHERE family = 'hose'`);
    const bareTook = performance.now() - began;
    if (run < 0) continue;
    preview.push(previewTook);
    commit.push(commitTook);
    bare.push(bareTook);
  }
  db.close();
  for (const ending of ['', '-wal', '-shm']) rmSync(`${ours}${ending}`, { force: true });
  const bareIs =
    'the facts and attributes of the same things read by two statements; nothing judged or written';
  return [
    {
      name: 'Preview of a rule change (hose)',
      unit: 'ms',
      ours: median(preview),
      bare: median(bare),
      bareIs,
      aim: { atMost: 1000, at: 20_000 },
    },
    {
      name: 'Commit of a rule change (hose)',
      unit: 'ms',
      ours: median(commit),
      bare: median(bare),
      bareIs,
      aim: { atMost: 5000, at: 20_000 },
    },
  ];
}
