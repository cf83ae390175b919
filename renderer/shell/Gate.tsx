/** What stands at the door: the department's screens, or the first run of a file that holds none yet. */
import { useEffect } from 'react';
import { useAsk } from '../api/ask.ts';
import { useChangeFeed } from '../api/client.ts';
import { Action } from '../parts/Action.tsx';
import { ActingProvider } from '../parts/acting/acting.tsx';
import { sayWhatWasDone } from '../parts/afterReload.ts';
import { NotReady } from '../parts/words/NotReady.tsx';
import { FirstRun } from '../screens/first-run/FirstRun.tsx';
import { Cover } from './Cover.tsx';
import { Files } from './Files.tsx';
import { Shell } from './Shell.tsx';

export function Gate() {
  const alive = useChangeFeed();
  useEffect(sayWhatWasDone, []);
  const summary = useAsk('department.summary', {});
  if (summary.isPending) return <NotReady loaded={summary} />;
  if (summary.data === undefined)
    return (
      <Cover title="No department is open">
        <NotReady loaded={summary} />
        {summary.error?.problem.code === 'no department open' ? (
          <Files />
        ) : (
          <Action onClick={() => void summary.refetch()}>Try again</Action>
        )}
      </Cover>
    );
  if (summary.data === null) return <FirstRun />;
  return (
    <ActingProvider>
      <Shell summary={summary.data} alive={alive} />
    </ActingProvider>
  );
}
