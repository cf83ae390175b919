/** Keys, counted as a person would press them. */
import type { Page } from '@playwright/test';

export class Keys {
  readonly #page: Page;
  #pressed = 0;

  constructor(page: Page) {
    this.#page = page;
  }

  /** How many keys were pressed so far. */
  get pressed(): number {
    return this.#pressed;
  }

  /** One key. */
  async press(key: string): Promise<void> {
    this.#pressed++;
    await this.#page.keyboard.press(key);
  }

  /** A word, each of its letters a key. */
  async type(text: string): Promise<void> {
    for (const letter of text) await this.press(letter);
  }
}
