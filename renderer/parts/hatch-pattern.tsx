/** The pattern of hatching, the mark of what is wrong or disputed, to be put among the `defs` of a figure. */
interface HatchPatternProps {
  readonly id: string;
  /** Gives the stripes their colour; without it they have that of the text around. */
  readonly className?: string;
  /** Width of a stripe, of eight pixels. */
  readonly stripe?: number;
}

export function HatchPattern({ id, className, stripe = 3 }: HatchPatternProps) {
  return (
    <pattern id={id} width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <rect width={stripe} height="8" className={className} fill={className ? undefined : 'currentColor'} />
    </pattern>
  );
}
