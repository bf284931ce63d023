/** The time of day of a second of the evening, to the second: entries of one minute have to be told apart. */
export function momentText(openedAt: string, seconds: number): string {
  return new Date(Date.parse(openedAt) + seconds * 1000).toLocaleTimeString('sv-SE');
}
