/** What stands at the door: the department's screens, or the first run of a file that holds none yet. */
import { useAsk } from '../api/ask.ts';
import { useChangeFeed } from '../api/client.ts';
import { Action } from '../parts/Action.tsx';
import { ActingProvider } from '../parts/acting/acting.tsx';
import { NotReady } from '../parts/words/NotReady.tsx';
import { FirstRun } from '../screens/first-run/FirstRun.tsx';
import { Files } from './Files.tsx';
import { Shell } from './Shell.tsx';
import styles from './shell.module.css';

export function Gate() {
  const alive = useChangeFeed();
  const summary = useAsk('department.summary', {});
  if (summary.data === undefined)
    return (
      <main className={styles.gate}>
        <NotReady loaded={summary} />
        {summary.error?.problem.code === 'no department open' ? <Files /> : null}
        {summary.error ? (
          <p>
            <Action onClick={() => void summary.refetch()}>Try again</Action>
          </p>
        ) : null}
      </main>
    );
  if (summary.data === null) return <FirstRun />;
  return (
    <ActingProvider>
      <Shell summary={summary.data} alive={alive} />
    </ActingProvider>
  );
}
