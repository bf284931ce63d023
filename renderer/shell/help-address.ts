/** Where the help for a screen begins. */

const TOPIC_OF_SCREEN: Readonly<Record<string, string>> = {
  rehearsal: 'rehearsal',
  logbook: 'logbook',
  'drawing-board': 'drawing-board',
  'power-room': 'power-room',
  settings: 'keys',
};

/**
 * The address of the topic that helps on a screen.
 *
 * @param screenPath the screen one comes from; the guide's first topic where none is its own
 */
export const helpAddress = (screenPath: string): string =>
  `#/help/${TOPIC_OF_SCREEN[screenPath] ?? 'first-evening'}`;
