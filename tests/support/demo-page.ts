/** The console in a browser over a log that has the demo evening in it. */
import { type ConsolePage, goTo, openConsolePage } from './console-page.ts';
import { recordDemo } from './demo-log.ts';

/** Opens the list of evenings. */
export async function openLogbookPage(size: { width?: number; height?: number } = {}): Promise<ConsolePage> {
  const opened = await openConsolePage({ ...size, prepare: recordDemo });
  await goTo(opened.page, 'logbook');
  await opened.page.getByRole('link', { name: 'Demo evening' }).waitFor();
  return opened;
}
