/** The screens of the console, in the order in which they are offered, and the addresses they have. */
import { type ComponentType, lazy } from 'react';
import { addressParts } from './address.ts';

export interface ScreenEntry {
  /** After the `#/` of the address. */
  readonly path: string;
  readonly name: string;
  readonly Screen: ComponentType;
  /** Stands by itself, with only the way back to the first screen: it is not offered among the others. */
  readonly alone?: boolean;
  /** Coming back from another screen, it is found where it was left. */
  readonly kept?: boolean;
}

/** A screen whose code is fetched when it is first shown. */
const screen = (load: () => Promise<ComponentType>) => lazy(async () => ({ default: await load() }));

export const SCREENS: readonly [ScreenEntry, ...ScreenEntry[]] = [
  {
    path: 'desk',
    name: 'Desk',
    Screen: screen(async () => (await import('../desk/desk-screen.tsx')).DeskScreen),
  },
  {
    path: 'rehearsal',
    name: 'Rehearsal',
    Screen: screen(async () => (await import('../rehearsal/rehearsal-screen.tsx')).RehearsalScreen),
  },
  {
    path: 'logbook',
    name: 'Logbook',
    Screen: screen(async () => (await import('../logbook/logbook-screen.tsx')).LogbookScreen),
  },
  {
    path: 'drawing-board',
    name: 'Drawing board',
    kept: true,
    Screen: screen(
      async () => (await import('../drawing-board/drawing-board-screen.tsx')).DrawingBoardScreen,
    ),
  },
  {
    path: 'power-room',
    name: 'Power room',
    Screen: screen(async () => (await import('../power-room/power-room-screen.tsx')).PowerRoomScreen),
  },
  {
    path: 'settings',
    name: 'Settings',
    Screen: screen(async () => (await import('../settings/settings-screen.tsx')).SettingsScreen),
  },
  {
    path: 'help',
    name: 'Help',
    Screen: screen(async () => (await import('../help/help-screen.tsx')).HelpScreen),
  },
  {
    path: 'wall',
    name: 'Wall view',
    alone: true,
    Screen: screen(async () => (await import('../desk/wall-screen.tsx')).WallScreen),
  },
  {
    path: 'cab-cards',
    name: 'Cards to print',
    alone: true,
    Screen: screen(async () => (await import('../desk/cab-cards-screen.tsx')).CabCardsScreen),
  },
];

/**
 * Which screen an address asks for.
 *
 * @param hash the address from its `#` on; what follows the screen's name is the screen's own (`#/logbook/abc`)
 * @returns the screen; the Desk for anything unknown
 */
export function screenAt(hash: string): ScreenEntry {
  const path = addressParts(hash)[0];
  return SCREENS.find((screen) => screen.path === path) ?? SCREENS[0];
}
