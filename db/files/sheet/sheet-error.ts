/** A file or a request that cannot be read as a sheet at all; problems of single rows are values, not errors. */
export class SheetError extends Error {
  readonly wrong: string;
  readonly todo: string;

  /**
   * @param wrong what is wrong with the file, in plain words
   * @param todo what to do about it
   */
  constructor(wrong: string, todo: string) {
    super(`${wrong} ${todo}`);
    this.name = 'SheetError';
    this.wrong = wrong;
    this.todo = todo;
  }
}
