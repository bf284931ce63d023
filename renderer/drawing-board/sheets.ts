/** The sheets beside the drawing, in the order in which they are offered. */
import type { ComponentType } from 'react';
import { FindingsSheet } from './findings/findings-sheet.tsx';
import { PrintSheet } from './print/print-sheet.tsx';
import { SettingsSheet } from './settings/settings-sheet.tsx';
import { TrackSheet } from './track/track-sheet.tsx';
import { TrainsSheet } from './trains/trains-sheet.tsx';
import { WiringSheet } from './wiring/wiring-sheet.tsx';

export interface SheetEntry {
  /** After the railroad's id in the address. */
  readonly path: string;
  readonly name: string;
  readonly Sheet: ComponentType;
  /** Takes the whole width: the drawing is not beside it. */
  readonly wide?: boolean;
}

export const SHEETS: readonly [SheetEntry, ...SheetEntry[]] = [
  { path: 'track', name: 'Track', Sheet: TrackSheet },
  { path: 'wiring', name: 'Wiring', Sheet: WiringSheet },
  { path: 'trains', name: 'Trains and places', Sheet: TrainsSheet },
  { path: 'settings', name: 'Settings', Sheet: SettingsSheet },
  { path: 'findings', name: 'Findings', Sheet: FindingsSheet },
  { path: 'print', name: 'Print', Sheet: PrintSheet, wide: true },
];

export const sheetAt = (path: string | undefined): SheetEntry =>
  SHEETS.find((sheet) => sheet.path === path) ?? SHEETS[0];
