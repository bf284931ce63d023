/** Sizes on the board that follow the letters, in pixels. */
export interface BoardSizes {
  readonly letter: number;
  /** Thickness of a train's capsule, and the width of a badge on the track. */
  readonly capsule: number;
  readonly badge: number;
  /** Height that a line of letters takes. */
  readonly line: number;
}

export function boardSizes(letterPx: number): BoardSizes {
  return { letter: letterPx, capsule: letterPx * 1.3, badge: letterPx * 1.35, line: letterPx * 1.1 };
}
