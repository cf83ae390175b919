/**
 * The family of state marks: one hanging tag with its hole, laid flat, filled, cut or broken differently for each state, so
 * that it is told apart in grey and at 12 px. Used for states and nothing else.
 */
import type { ReactNode } from 'react';
import type { MarkState } from '../../../domain/derive/marks.ts';

const OUTLINE = 'M4.2.75h13.05v10.5H4.2L.75 7.8V4.2z';
const BODY = 'M3.9 0H18v12H3.9L0 8.1V3.9z';
const HOLE = 'M4.9 4.35a1.65 1.65 0 1 0 0 3.3a1.65 1.65 0 1 0 0-3.3z';
const CROSS =
  'M9.7 2.1l2.1 2.4 2.1-2.4 1.4 1.2L12.95 6l2.35 2.7-1.4 1.2-2.1-2.4-2.1 2.4-1.4-1.2L10.65 6 8.3 3.3z';

const outline = (width: number) => <path d={OUTLINE} fill="none" stroke="currentColor" strokeWidth={width} />;
const hole = <circle cx="4.9" cy="6" r="1.3" fill="currentColor" />;
const cut = (d: string) => <path d={d} fill="currentColor" fillRule="evenodd" />;

export const SHAPES: Readonly<Record<MarkState, ReactNode>> = {
  current: (
    <>
      {outline(0.9)}
      {hole}
    </>
  ),
  'due soon': (
    <>
      {outline(1.5)}
      {hole}
      <path d="M10.6.75h6.65v10.5H10.6z" fill="currentColor" />
    </>
  ),
  overdue: cut(`${BODY}${HOLE}`),
  'never done': (
    <>
      {outline(1.5)}
      {hole}
      <path d="M8.9 6h5.4" stroke="currentColor" strokeWidth="1.8" />
    </>
  ),
  'retest owed': cut(`M3.9 0H18v12h-3V5.2h-4.4V12H3.9L0 8.1V3.9z${HOLE}`),
  'tagged out': cut(`${BODY}${CROSS}`),
  missing: (
    <path
      d="M.75 5.4V4.2L4.2.75h1.5M9.2.75h2.9M15 .75h2.25V3.4M17.25 8.6v2.65H15M12.1 11.25H9.2M5.7 11.25H4.2L.75 7.8V6.8"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.5"
    />
  ),
  'life ended': cut(`M3.9 0H18L9 12H3.9L0 8.1V3.9z${HOLE}`),
  'not applicable': (
    <>
      {outline(0.9)}
      <path d="M5 11L14.5 1" stroke="currentColor" strokeWidth="0.9" />
    </>
  ),
  'not judged': (
    <>
      {outline(1.5)}
      {hole}
      <path d="M9.1.75v10.5M12.3.75v10.5M15.3.75v10.5" stroke="currentColor" strokeWidth="1.4" />
    </>
  ),
};

/** The drawing board of the shapes: a tag and the room its stroke needs. */
export const SHAPE_BOX = '-0.5 -0.5 19 13';

/** What each state says, in one sentence. */
export const STATE_MEANS: Readonly<Record<MarkState, string>> = {
  'life ended': 'Its life is over; no test restores it.',
  'retest owed': 'It failed, was repaired or something happened to it; only a pass settles that.',
  'never done': 'Nothing is on record and the first one is owed.',
  overdue: 'It was due before today.',
  'tagged out': 'Somebody took it out of service; nobody has returned it.',
  missing: 'It is not where it should be, and nobody has found it.',
  'not judged': 'A value that the date depends on is not known or not confirmed.',
  'due soon': 'It falls due within its warning window.',
  current: 'Done in time; nothing to do yet.',
  'not applicable': 'The requirement does not concern this thing.',
};
