/** What is drawn on the board, said in words: for a screen reader, and for the table beside the board. */
import type { BlockId, NodeId } from '../../shared-model/ids.ts';
import type { TurnoutPosition } from '../../shared-model/railroad/document.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { blockTitle, facingWords } from '../../shared-model/railroad/where-words.ts';
import type { BlockStateName } from '../../shared-model/session/state.ts';

/** A word at a thing: what was refused because of it, or the alarm that stands on it, by rank. */
export type BoardMark = 'refused' | 'book' | 'act' | 'danger';

const MARK_WORDS: Readonly<Record<BoardMark, string>> = {
  refused: 'refused because of it',
  book: 'alarm: record behind',
  act: 'alarm: act',
  danger: 'alarm: danger',
};

export interface BlockFacts {
  readonly mark: string;
  readonly name: string;
  readonly state: BlockStateName;
  readonly cab: string | null;
  /** Empty when nobody is in it or on the way. */
  readonly train: string;
  readonly presumed: boolean;
  /** Its train works in it as it likes. */
  readonly limits: boolean;
  readonly tag: string | null;
  readonly marked: BoardMark | null;
}

function stateWords({ state, cab, train }: BlockFacts): string {
  const whose = [train, cab].filter((word) => word !== null && word !== '').join(', ');
  return whose === '' ? state : `${state}, ${whose}`;
}

/** "5 Siding: occupied, No. 12, Cab 2; position presumed; out of service: loose knob". */
export function blockWords(facts: BlockFacts): string {
  return [
    `${blockTitle(facts.mark, facts.name)}: ${stateWords(facts)}`,
    ...(facts.limits ? ['working limits'] : []),
    ...(facts.presumed ? ['position presumed'] : []),
    ...(facts.tag === null ? [] : [`out of service: ${facts.tag}`]),
    ...(facts.marked === null ? [] : [MARK_WORDS[facts.marked]]),
  ].join('; ');
}

export interface TurnoutFacts {
  readonly id: string;
  readonly position: TurnoutPosition;
  readonly presumed: boolean;
  readonly locked: boolean;
  readonly tag: string | null;
}

/** "Turnout T5: reverse, presumed, locked; out of service: point rod bent". */
export function turnoutWords({ id, position, presumed, locked, tag }: TurnoutFacts): string {
  const stands = [position, ...(presumed ? ['presumed'] : []), ...(locked ? ['locked'] : [])].join(', ');
  return `Turnout ${id}: ${stands}${tag === null ? '' : `; out of service: ${tag}`}`;
}

/** "gap to 4 barred: reversed", for each barred gap at an end of a block. */
export function barredWords(
  railroad: Railroad,
  barred: readonly { readonly id: NodeId; readonly why: string }[],
  block: BlockId,
): readonly string[] {
  return barred.flatMap(({ id, why }) => {
    const edge = (railroad.edgesAt.get(id) ?? []).find((one) => railroad.blockOfEdge.get(one) === block);
    if (edge === undefined) return [];
    const beyond = facingWords(railroad, { edge, toward: id }).replace('facing', 'to');
    return [`gap ${beyond} barred: ${why}`];
  });
}
