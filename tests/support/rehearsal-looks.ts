/** What anybody would see to be wrong with a screen of the Rehearsal, measured: targets, letters, things that stick out. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';

/** In CSS pixels; half a one is rounding. */
const LEAST_TARGET = 44;

/**
 * Everything in the Rehearsal that is too small to press or to read, or wider than what it stands in.
 *
 * @returns a sentence for each, none when all is well
 */
export function looksWrong(page: Page): Promise<readonly string[]> {
  return page.evaluate((least) => {
    const wrong: string[] = [];
    const fine = Number.parseFloat(getComputedStyle(document.documentElement).getPropertyValue('--fine'));
    const isSaidOnly = (element: Element): boolean =>
      element.closest('.unseen, .field-label') !== null && element.getBoundingClientRect().width <= 1;
    for (const element of document.querySelectorAll('.rehearsal, .rehearsal *')) {
      const box = element.getBoundingClientRect();
      if (box.width === 0 || isSaidOnly(element)) continue;
      const says = `${element.tagName} ${element.textContent?.slice(0, 40)}`;
      const isPressed = element.matches('button, select, a, summary, .chart-reach');
      if (isPressed && (box.width < least - 0.5 || box.height < least - 0.5))
        wrong.push(`${says}: ${box.width} by ${box.height}`);
      const own = [...element.childNodes].some(
        ({ nodeType, nodeValue }) => nodeType === 3 && nodeValue?.trim(),
      );
      const size = Number.parseFloat(getComputedStyle(element).fontSize);
      if (own && element.closest('.badge') === null && size < fine)
        wrong.push(`${says}: letters of ${size} px, not of ${fine}`);
      const scrolls = element.matches('input, select') || element.closest('svg') !== null;
      if (!scrolls && element.clientWidth > 1 && element.scrollWidth > element.clientWidth + 1)
        wrong.push(`${says}: ${element.scrollWidth} px wide in ${element.clientWidth}`);
    }
    return wrong;
  }, LEAST_TARGET);
}

/** What axe finds in the Rehearsal. */
export async function axeFinds(page: Page): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page }).include('.rehearsal').analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
}
