/** Numbers as they are read off a thing in bad light. */

/** A number as two people would call it the same: capitals and spaces apart. */
export const sameNumber = (number: string): string => number.toUpperCase().replace(/\s+/g, '');

/** Whether two numbers differ by one character: another one, one more or one less. */
export function isNear(a: string, b: string): boolean {
  const [x, y] = [sameNumber(a), sameNumber(b)];
  if (x === y || Math.abs(x.length - y.length) > 1) return false;
  let from = 0;
  while (from < x.length && x[from] === y[from]) from++;
  const [restX, restY] = [x.slice(from), y.slice(from)];
  if (x.length === y.length) return restX.slice(1) === restY.slice(1);
  return x.length > y.length ? restX.slice(1) === restY : restX === restY.slice(1);
}
