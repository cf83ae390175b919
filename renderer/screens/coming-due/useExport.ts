import { useRef, useState } from 'react';
import type { Problem } from '../../../db/api.ts';
import { problemOf } from '../../api/problem.ts';
import { saveCsv } from '../../parts/saveFile.ts';
import { toast } from '../../parts/toast.ts';
import { dueCsv } from './exportCsv.ts';
import type { DueSearch } from './filter.ts';

interface Export {
  progress: { done: number; total: number } | null;
  problem: Problem | null;
  begin(search: DueSearch): void;
  stop(): void;
}

/** Export what is shown: with progress, and stopped without leaving a file. */
export function useExport(today: string, familyTitle: (family: string) => string): Export {
  const [progress, setProgress] = useState<Export['progress']>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const run = useRef(0);
  return {
    progress,
    problem,
    begin(search) {
      const mine = ++run.current;
      const isStopped = () => run.current !== mine;
      setProblem(null);
      setProgress({ done: 0, total: 0 });
      dueCsv(search, familyTitle, (done, total) => !isStopped() && setProgress({ done, total }), isStopped)
        .then(csv => {
          if (csv === null) return;
          saveCsv(`coming-due-${today}.csv`, csv);
          toast(`Exported: coming-due-${today}.csv`);
        })
        .catch(error => setProblem(problemOf(error)))
        .finally(() => !isStopped() && setProgress(null));
    },
    stop() {
      run.current++;
      setProgress(null);
    },
  };
}
