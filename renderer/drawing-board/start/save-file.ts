/** Giving the user a file. */

/** Saves a railroad, or what was kept of one, as the file that can be imported again. */
export function saveRailroad(name: string, document: unknown): void {
  const text = `${JSON.stringify(document, null, 2)}\n`;
  const link = window.document.createElement('a');
  link.href = `data:application/json;charset=utf-8,${encodeURIComponent(text)}`;
  const plain = name.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-');
  link.download = `${plain.replaceAll(/^-|-$/g, '') || 'railroad'}.railroad.json`;
  link.click();
}
