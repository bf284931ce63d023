/** Zoom and pan without a wheel or a drag. */
import type { Corner } from './board-layout.ts';
import type { Point } from './polyline.ts';
import type { SightActs } from './use-sight.ts';

interface SightButtonsProps {
  readonly acts: SightActs;
  readonly zoomed: boolean;
  readonly corner: Corner;
}

const STEPS: readonly { readonly says: string; readonly direction: Point; readonly drawn: string }[] = [
  { says: 'Show more to the left', direction: [-1, 0], drawn: 'M13 4L7 10L13 16' },
  { says: 'Show more to the right', direction: [1, 0], drawn: 'M7 4L13 10L7 16' },
  { says: 'Show more above', direction: [0, -1], drawn: 'M4 13L10 7L16 13' },
  { says: 'Show more below', direction: [0, 1], drawn: 'M4 7L10 13L16 7' },
];

function SightButton({
  says,
  drawn,
  onPress,
}: {
  readonly says: string;
  readonly drawn: string;
  readonly onPress: () => void;
}) {
  return (
    <button
      type="button"
      className="board-sight"
      aria-label={says}
      title={says}
      onClick={(event) => {
        event.stopPropagation();
        onPress();
      }}
    >
      <svg aria-hidden="true" viewBox="0 0 20 20" width="18" height="18">
        <path d={drawn} />
      </svg>
    </button>
  );
}

export function SightButtons({ acts, zoomed, corner }: SightButtonsProps) {
  return (
    <fieldset className="board-sights" data-corner={corner} aria-label="Zoom and pan">
      {zoomed ? (
        <>
          {STEPS.map(({ says, direction, drawn }) => (
            <SightButton key={says} says={says} drawn={drawn} onPress={() => acts.step(direction)} />
          ))}
          <SightButton
            says="Show the whole railroad"
            drawn="M3 7V3H7M13 3H17V7M17 13V17H13M7 17H3V13"
            onPress={acts.whole}
          />
          <SightButton says="Farther" drawn="M4 10H16" onPress={acts.farther} />
        </>
      ) : null}
      <SightButton says="Closer" drawn="M4 10H16M10 4V16" onPress={acts.closer} />
    </fieldset>
  );
}
