import { type RefObject, useEffect } from 'react';
import { Caution } from '../../parts/words/Caution.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import styles from './help.module.css';
import type { HelpPage, HelpSection } from './pages/page.ts';

interface PageProps {
  page: HelpPage;
  handle: RefObject<HTMLElement | null>;
  /** The section that was searched for: the page is shown there. */
  at: number | null;
  /** A link leads out of help. */
  onLeave: () => void;
}

/** One page of help. */
export function Page({ page, handle, at, onLeave }: PageProps) {
  // biome-ignore lint/correctness/useExhaustiveDependencies: another page begins at its top or where it was searched for.
  useEffect(() => {
    const section = at === null ? null : handle.current?.querySelectorAll('section[data-part]')[at];
    if (section) section.scrollIntoView({ block: 'start' });
    else handle.current?.scrollTo({ top: 0 });
  }, [page.id, at, handle]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keys must be able to reach it.
    <article ref={handle} className={styles.page} tabIndex={0} aria-label={page.title}>
      <h2>{page.title}</h2>
      <p className={styles.lead}>{page.lead}</p>
      {page.opens ? (
        <p>
          <a href={page.opens.hash} onClick={onLeave}>
            {page.opens.says}
          </a>
        </p>
      ) : null}
      {page.sections.map((section, i) => (
        <Section key={section.heading ?? `${page.id} ${i}`} section={section} />
      ))}
    </article>
  );
}

function Section({ section }: { section: HelpSection }) {
  const { heading, says, steps, list, terms, keys, cautions, unconfirmed } = section;
  return (
    <section data-part>
      {heading ? <h3>{heading}</h3> : null}
      {says?.map(said => (
        <p key={said}>{said}</p>
      ))}
      {steps ? (
        <ol>
          {steps.map(step => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      ) : null}
      {list ? (
        <ul>
          {list.map(said => (
            <li key={said}>{said}</li>
          ))}
        </ul>
      ) : null}
      {terms ? (
        <dl className={styles.terms}>
          {terms.map(({ word, means }) => (
            <div key={`${word} ${means}`}>
              <dt>{word}</dt>
              <dd>{means}</dd>
            </div>
          ))}
        </dl>
      ) : null}
      {unconfirmed?.map(said => (
        <p key={said} className={styles.unconfirmed}>
          {said}
        </p>
      ))}
      {cautions ? <Caution {...cautions} /> : null}
      {keys ? (
        <ul className={styles.keys}>
          {keys.map(({ key, does }) => (
            <li key={key}>
              <KeyHint of={key} />
              <span>
                <span className="seen-by-readers">{key}: </span>
                {does}
              </span>
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}
