/** Paper and PDF of what the window shows; the page's own print styles say how. */
import { writeFile } from 'node:fs/promises';
import { type BrowserWindow, dialog } from 'electron';

const PDF_OPTIONS = { preferCSSPageSize: true, printBackground: true, generateTaggedPDF: true };

/** Asks where to, and writes a PDF there; a disk that refuses is told in a message. */
export async function savePdf(window: BrowserWindow): Promise<void> {
  const { canceled, filePath } = await dialog.showSaveDialog(window, {
    title: 'Save as PDF',
    defaultPath: 'cabward.pdf',
    filters: [{ name: 'PDF', extensions: ['pdf'] }],
  });
  if (canceled || filePath === '') return;
  try {
    await writeFile(filePath, await window.webContents.printToPDF(PDF_OPTIONS));
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    dialog.showErrorBox('The PDF could not be saved', `${filePath}: ${cause}`);
  }
}

/** Opens the system's print dialog. */
export function printPage(window: BrowserWindow): void {
  window.webContents.print({});
}
