/** Hatching, the mark of what is wrong or disputed: a surface that fills its box, in the colour of the text around it. */
import { useId } from 'react';
import { HatchPattern } from './hatch-pattern.tsx';

export function Hatch({
  width = '100%',
  height = '100%',
}: {
  readonly width?: number | string;
  readonly height?: number | string;
}) {
  const pattern = useId();
  return (
    <svg aria-hidden="true" width={width} height={height} style={{ display: 'block', flex: 'none' }}>
      <defs>
        <HatchPattern id={pattern} />
      </defs>
      <rect width="100%" height="100%" fill={`url(#${pattern})`} />
    </svg>
  );
}
