/** Puts a theme and the sizes of letters on the page, as CSS custom properties of its root. */
import type { UserSettings } from '../../shared-model/wire/contract.ts';
import { letterSizes } from './letter-sizes.ts';
import { customProperties, themeFor } from './themes.ts';

export type Look = Pick<UserSettings, 'theme' | 'screenInches' | 'deskMm' | 'farMm'>;

/**
 * @param root the element that gets the properties, and `data-theme`
 * @param look the part of the user's settings that can be seen
 * @param screenPx resolution of the screen in CSS pixels
 * @param moreContrast the system is set to show more contrast
 */
export function applyLook(
  root: HTMLElement,
  look: Look,
  screenPx: readonly [number, number],
  moreContrast: boolean,
): void {
  root.dataset.theme = look.theme;
  root.dataset.contrast = moreContrast ? 'more' : '';
  for (const [property, value] of customProperties(themeFor(look.theme, moreContrast)))
    root.style.setProperty(property, value);
  const sizes = letterSizes({ ...look, screenPx });
  for (const [size, px] of Object.entries(sizes)) root.style.setProperty(`--${size}`, `${px}px`);
}
