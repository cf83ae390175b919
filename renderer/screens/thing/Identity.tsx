import { Fragment } from 'react';
import type { ItemPage } from '../../../db/api.ts';
import { showValue } from '../../../domain/units.ts';
import { useAsk } from '../../api/ask.ts';
import { useMeasures } from '../../parts/words/useMeasures.ts';
import styles from './thing.module.css';

/** What it is: family, serial, and every detail that is known. */
export function Identity({ page }: { page: ItemPage }) {
  const measures = useMeasures();
  const family = useAsk('vocabulary.list', {}).data?.families.find(f => f.id === page.family);
  return (
    <section aria-label="What it is">
      <h2>What it is</h2>
      <dl className={styles.identity}>
        <dt>Family</dt>
        <dd>{family?.title ?? page.family}</dd>
        <dt>Serial</dt>
        <dd className="mono">{page.serial ?? '–'}</dd>
        {family?.attributes
          .filter(a => page.attributes[a.key] !== undefined)
          .map(a => (
            <Fragment key={a.key}>
              <dt>{a.title}</dt>
              <dd>{showValue(a, page.attributes[a.key], measures)}</dd>
            </Fragment>
          ))}
        <dt>Known as</dt>
        <dd className="mono">{page.item}</dd>
      </dl>
    </section>
  );
}
