import type { CylinderJudgment, Verdict } from '../../../db/api.ts';
import { showMeasure } from '../../../domain/units.ts';
import { useMeasures } from '../../parts/words/useMeasures.ts';
import styles from './thing.module.css';

/** May it be filled, may it stay: what the law says beside what the department has chosen. */
export function Cylinder({
  judgment: { fill, stayInService, rechargeAt_psi },
}: {
  judgment: CylinderJudgment;
}) {
  const measures = useMeasures();
  return (
    <section aria-label="Filling">
      <h2>Filling</h2>
      <table className={styles.verdicts}>
        <thead>
          <tr>
            <td />
            <th scope="col">By the law</th>
            <th scope="col">By the department’s policy</th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">May it be filled?</th>
            <VerdictCell verdict={fill.law} />
            <VerdictCell verdict={fill.policy} />
          </tr>
          <tr>
            <th scope="row">May it stay in service?</th>
            <VerdictCell verdict={stayInService.law} />
            <VerdictCell verdict={stayInService.policy} />
          </tr>
        </tbody>
      </table>
      {rechargeAt_psi ? (
        <p className={styles.soft}>
          Recharge when it has fallen to {showMeasure(rechargeAt_psi, 'psi', measures)} or under.
        </p>
      ) : null}
    </section>
  );
}

function VerdictCell({ verdict: { allowed, because } }: { verdict: Verdict }) {
  return (
    <td>
      {allowed === null ? null : <strong>{allowed ? 'Yes. ' : 'No. '}</strong>}
      {because}
    </td>
  );
}
