/** Numbers as labels: `31-107`, `C-103`, `R-2`. */

/**
 * A text that sorts numbers as people do: 9 before 10, `31-9` before `31-107`, letters without regard to case.
 * Runs of digits are padded to ten.
 */
export function numberSort(number: string): string {
  return number.toLowerCase().replace(/\d+/g, digits => digits.padStart(10, '0'));
}
