import type { ItemPage } from '../../../db/api.ts';
import type { Attribute } from '../../../domain/rulebook/types.ts';
import { useAsk } from '../../api/ask.ts';
import { dateText } from '../../parts/words/dates.tsx';
import styles from './thing.module.css';

/** What it is: family, serial, and every detail that is known. */
export function Identity({ page }: { page: ItemPage }) {
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
            <AttributeLine key={a.key} attribute={a} value={page.attributes[a.key]} />
          ))}
        <dt>Known as</dt>
        <dd className="mono">{page.item}</dd>
      </dl>
    </section>
  );
}

function AttributeLine({ attribute, value }: { attribute: Attribute; value: unknown }) {
  return (
    <>
      <dt>{attribute.title}</dt>
      <dd>{shown(attribute, value)}</dd>
    </>
  );
}

function shown(attribute: Attribute, value: unknown): string {
  if (value === null || value === undefined) return '–';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (attribute.type === 'choice')
    return attribute.choices?.find(c => c.value === value)?.title ?? String(value);
  if (attribute.type === 'when') return dateText(String(value));
  const figure = typeof value === 'number' ? value.toLocaleString('en-US') : String(value);
  return attribute.unit ? `${figure} ${attribute.unit}` : figure;
}
