/** The address of a screen: `#/logbook/abc` is the Logbook's own `abc`. */

/** A part as it was meant; as it is where somebody typed half an escape. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** The parts of an address between its slashes, decoded. */
export function addressParts(hash: string): readonly string[] {
  return hash
    .replace(/^#\/?/, '')
    .split('/')
    .filter((part) => part !== '')
    .map(decoded);
}

/** What follows the screen's name in an address: `['abc']` of `#/logbook/abc`. */
export const screenRest = (hash: string): readonly string[] => addressParts(hash).slice(1);
