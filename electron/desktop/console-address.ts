/** The address of the page inside Electron: a scheme of our own instead of `file:`, so that it has an origin and no reach into the disk. */

export const SCHEME = 'app';
export const ORIGIN = `${SCHEME}://console`;
export const PAGE = `${ORIGIN}/`;

/** Whether an address is one of the console's own; anything that is no address is not. */
export function isConsoleAddress(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, host, username, password } = new URL(address);
  // The origin of a scheme of our own is opaque to URL in Node, so its parts are compared.
  return protocol === `${SCHEME}:` && host === 'console' && username === '' && password === '';
}
