/** Somebody at the drawing board with a pointer alone, or with the keyboard alone; every press, choice and typed value is an act that is counted. */
import type { Locator, Page } from 'playwright';

export interface Hands {
  readonly name: string;
  /** Presses a button, or follows a link. */
  press(control: Locator): Promise<void>;
  /** Chooses one of a list that opens; `text` is how the choice begins. */
  choose(list: Locator, text: string): Promise<void>;
  /** Chooses one of a few that are all in sight, by its words. */
  pick(group: Locator, text: string): Promise<void>;
  /** Types into a field in place of what is there. */
  type(field: Locator, text: string): Promise<void>;
  /** How many acts it took so far. */
  acts(): number;
}

/** Pressed and typed where the pointer has put the cursor. A list that opens is drawn by the system: its choice is made for the pointer. */
export function pointerHands(page: Page): Hands {
  let acts = 0;
  return {
    name: 'pointer',
    async press(control) {
      acts += 1;
      await control.click();
    },
    async choose(list, text) {
      acts += 1;
      const label = await list.locator('option').filter({ hasText: text }).first().textContent();
      await list.selectOption({ label: label ?? text });
    },
    async pick(group, text) {
      acts += 1;
      await group.getByText(text, { exact: true }).click();
    },
    async type(field, text) {
      acts += 1;
      await field.click({ clickCount: 3 });
      await page.keyboard.type(text);
    },
    acts: () => acts,
  };
}

const MOST_TABS = 250;

/** Tab, Enter, Space, arrows and letters; the pointer is never touched. */
export function keyboardHands(page: Page): Hands {
  let acts = 0;
  const hasFocus = (control: Locator) => control.evaluate((node) => node.contains(document.activeElement));
  const tabTo = async (control: Locator) => {
    await control.first().waitFor();
    for (let tabs = 0; tabs < MOST_TABS; tabs += 1) {
      if (await hasFocus(control.first())) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`not reached by Tab: ${control}`);
  };
  return {
    name: 'keyboard',
    async press(control) {
      acts += 1;
      await tabTo(control);
      await page.keyboard.press('Enter');
    },
    async choose(list, text) {
      acts += 1;
      await tabTo(list);
      await page.keyboard.type(text);
    },
    async pick(group, text) {
      acts += 1;
      await tabTo(group);
      const chosen = () => group.locator('[data-selected]').textContent();
      for (let arrows = 0; arrows < 8 && (await chosen()) !== text; arrows += 1)
        await page.keyboard.press('ArrowRight');
    },
    async type(field, text) {
      acts += 1;
      await tabTo(field);
      await page.keyboard.press('Control+A');
      await page.keyboard.type(text);
    },
    acts: () => acts,
  };
}
