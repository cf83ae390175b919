/**
 * The state marks on paper: the same hanging tag as on the screens, in black, told apart by its shape and always
 * with its word. Corners and strokes are those of the screen's shapes, on a board of 18 by 12.
 */
import type { CanvasElement, Content, TableCell } from 'pdfmake/interfaces.js';
import { capital } from '../../domain/capital.ts';
import type { MarkState } from '../../domain/derive/marks.ts';
import type { Condition } from '../../domain/facts.ts';
import { LOOSER_MEANS } from '../../domain/rulebook/due-words.ts';

/** Points of type to one unit of the board: a mark is 13 pt wide, as tall as a capital with its overshoot. */
const SCALE = 0.72;
const OUTLINE = '4.2,.75 17.25,.75 17.25,11.25 4.2,11.25 .75,7.8 .75,4.2';
const BODY = '3.9,0 18,0 18,12 3.9,12 0,8.1 0,3.9';
const CROSS =
  '9.7,2.1 11.8,4.5 13.9,2.1 15.3,3.3 12.95,6 15.3,8.7 13.9,9.9 11.8,7.5 9.7,9.9 8.3,8.7 10.65,6 8.3,3.3';

type Stroke = (scale: number) => CanvasElement;

const points = (text: string, scale: number) =>
  text.split(' ').map(pair => {
    const [x = 0, y = 0] = pair.split(',').map(Number);
    return { x: x * scale, y: y * scale };
  });
const filled =
  (corners: string, color = 'black'): Stroke =>
  scale => ({ type: 'polyline', points: points(corners, scale), closePath: true, color, lineWidth: 0 });
const drawn =
  (corners: string, width: number, closePath = false): Stroke =>
  scale => ({
    type: 'polyline',
    points: points(corners, scale),
    closePath,
    lineColor: 'black',
    lineWidth: width * scale,
  });
const hole =
  (r: number, color: string): Stroke =>
  scale => ({ type: 'ellipse', x: 4.9 * scale, y: 6 * scale, r1: r * scale, r2: r * scale, color });

const outlined = (width: number): Stroke[] => [drawn(OUTLINE, width, true), hole(1.3, 'black')];
const cut = (corners: string): Stroke[] => [filled(corners), hole(1.65, 'white')];

const SHAPES: Readonly<Record<MarkState, readonly Stroke[]>> = {
  current: outlined(0.9),
  'due soon': [...outlined(1.5), filled('10.6,.75 17.25,.75 17.25,11.25 10.6,11.25')],
  overdue: cut(BODY),
  'never done': [...outlined(1.5), drawn('8.9,6 14.3,6', 1.8)],
  'retest owed': cut('3.9,0 18,0 18,12 15,12 15,5.2 10.6,5.2 10.6,12 3.9,12 0,8.1 0,3.9'),
  'tagged out': [filled(BODY), filled(CROSS, 'white')],
  missing: [
    drawn('.75,5.4 .75,4.2 4.2,.75 5.7,.75', 1.5),
    drawn('9.2,.75 12.1,.75', 1.5),
    drawn('15,.75 17.25,.75 17.25,3.4', 1.5),
    drawn('17.25,8.6 17.25,11.25 15,11.25', 1.5),
    drawn('12.1,11.25 9.2,11.25', 1.5),
    drawn('5.7,11.25 4.2,11.25 .75,7.8 .75,6.8', 1.5),
  ],
  'life ended': cut('3.9,0 18,0 9,12 3.9,12 0,8.1 0,3.9'),
  'not applicable': [drawn(OUTLINE, 0.9, true), drawn('5,11 14.5,1', 0.9)],
  'not judged': [
    ...outlined(1.5),
    drawn('9.1,.75 9.1,11.25', 1.4),
    drawn('12.3,.75 12.3,11.25', 1.4),
    drawn('15.3,.75 15.3,11.25', 1.4),
  ],
};

export const MARK_WIDTH_PT = 18 * SCALE;

/** A mark as a drawing of its own: the printer moves what it is given, so none is given twice. */
export const markOf = (state: MarkState): CanvasElement[] => markAt(state, 1);

/** The same so many times as wide. */
export const markAt = (state: MarkState, times: number): CanvasElement[] =>
  SHAPES[state].map(stroke => stroke(SCALE * times));

export const isMark = (word: string): word is MarkState => Object.hasOwn(SHAPES, word);

/** The two cells of a state: its mark, and its word beside it. */
export function stateCells(state: MarkState): [TableCell, TableCell] {
  return [{ canvas: markOf(state), margin: [0, 2.4, 0, 0] }, { text: capital(state) }];
}

/** The two cells of a condition: a mark where it is a state of its own, else a word; serviceable is silent. */
export function conditionCells(condition: Condition): [TableCell, TableCell] {
  if (isMark(condition)) return stateCells(condition);
  return [{ text: '' }, { text: condition === 'serviceable' ? '' : capital(condition) }];
}

/** The foot of a paper on which a date goes by a looser rule; nothing where none does. */
export function looserNote(rows: readonly { own: string | null }[]): Content[] {
  return rows.some(r => r.own === 'looser') ? [{ text: LOOSER_MEANS, bold: true, margin: [0, 6, 0, 0] }] : [];
}
