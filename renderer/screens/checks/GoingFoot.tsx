/** What can be done where one is in a check-off, each with its key. */
import type { CheckoffPage } from '../../../db/api-checks.ts';
import type { ExceptionKind } from '../../../domain/checkoffs/marks.ts';
import { Action } from '../../parts/Action.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import styles from './checks.module.css';

/** What can be wrong with a line, by its key. */
export const KINDS: readonly { key: string; kind: ExceptionKind; label: string }[] = [
  { key: 'm', kind: 'missing', label: 'Missing' },
  { key: 'd', kind: 'damaged', label: 'Damaged' },
  { key: 's', kind: 'short', label: 'Short' },
  { key: 'l', kind: 'low', label: 'Low' },
  { key: 'e', kind: 'expired', label: 'Expired' },
  { key: 'x', kind: 'wrong place', label: 'Wrong place' },
];

interface GoingFootProps {
  page: Pick<CheckoffPage, 'of' | 'state'>;
  pane: 'places' | 'lines';
  /** Nothing keeps it from being signed. */
  isWhole: boolean;
  /** The line under the cursor asks for an entry of its own. */
  wantsEntry: boolean;
  onPresent: () => void;
  onLines: () => void;
  onLeaveOut: () => void;
  onWorks: () => void;
  onWrong: (kind: ExceptionKind) => void;
  onRest: () => void;
  onSign: () => void;
  onCountersign: () => void;
  /** The drawing of the rig, beside the lists or not. */
  onDraw: () => void;
  onBack: () => void;
}

export function GoingFoot(props: GoingFootProps) {
  const { page, pane, isWhole, wantsEntry } = props;
  const isDraft = page.state === 'draft';
  return (
    <footer className={styles.foot}>
      {isDraft ? (
        <>
          {pane === 'places' ? (
            <>
              <Action weight="main" hint="a" onClick={props.onPresent}>
                All present
              </Action>
              <Action hint="Enter" onClick={props.onLines}>
                Its lines
              </Action>
              <Action hint="z" onClick={props.onLeaveOut}>
                Leave out
              </Action>
            </>
          ) : (
            <>
              <Action weight={wantsEntry ? 'main' : 'plain'} hint="o" onClick={props.onWorks}>
                Works
              </Action>
              {KINDS.map(({ key, kind, label }) => (
                <Action key={key} hint={key} onClick={() => props.onWrong(kind)}>
                  {label}
                </Action>
              ))}
            </>
          )}
          <Action hint="r" onClick={props.onRest}>
            The rest is present
          </Action>
          <Action weight={isWhole ? 'main' : 'plain'} hint="g" onClick={props.onSign}>
            Sign
          </Action>
        </>
      ) : page.state === 'signed' ? (
        <Action weight="main" hint="g" onClick={props.onCountersign}>
          Countersign
        </Action>
      ) : null}
      <Action weight="quiet" hint="v" onClick={props.onDraw}>
        Drawing
      </Action>
      <PrintAction paper={{ paper: 'check-off sheet', of: page.of }} label="Print the sheet" />
      <Action weight="quiet" hint="Escape" onClick={props.onBack}>
        Back
      </Action>
    </footer>
  );
}
