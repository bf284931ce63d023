/** A folder of its own for a test, gone when the test ends. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'cabward-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
