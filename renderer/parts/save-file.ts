/** Gives the user a file, as a download: the browser or the window asks where to. */

/** Letters and digits of any language; anything else becomes one dash, so that every system takes the name. */
export const fileName = (name: string, ending: string): string =>
  `${name.replaceAll(/[^\p{L}\p{N}]+/gu, '-').replaceAll(/^-|-$/g, '')}.${ending}`;

/** @param type media type of a text */
export function saveFile(name: string, content: string | Blob, type = 'text/plain'): void {
  const blob = content instanceof Blob ? content : new Blob([content], { type: `${type};charset=utf-8` });
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The download has begun with the click; the address is not needed once it has read the bytes.
  window.setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
