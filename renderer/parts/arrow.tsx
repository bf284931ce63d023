/** The arrow of "K4 to 2", drawn, since the typeface has none. A screen reader says "to". */
export function Arrow() {
  return (
    <svg
      role="img"
      aria-label="to"
      viewBox="0 0 20 20"
      width="0.9em"
      height="0.9em"
      style={{ verticalAlign: '-0.08em' }}
    >
      <path d="M1 10H17M11 4L17 10L11 16" fill="none" stroke="currentColor" strokeWidth="2.4" />
    </svg>
  );
}
