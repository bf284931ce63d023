/** What every part of making up is told: the evening, and the Desk's own state and acts. */
import type { DeskSource } from '../desk-source.ts';
import type { Desk } from '../use-desk.ts';

export interface MakingUpProps {
  readonly source: DeskSource;
  readonly desk: Desk;
}
