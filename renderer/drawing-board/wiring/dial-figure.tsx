/** A dial as it is on the wooden board: its positions in their order round the knob; those not wired are crossed out. */
import type { Selector } from '../../../shared-model/railroad/document.ts';
import { dialSpots } from '../../../shared-model/railroad/notebook/dial-spots.ts';

const KNOB = 12;
const REACH = 34;
const LETTER = 13;

const ordinals = (selector: Selector): string =>
  selector.positions.map((position, index) => `${index + 1} ${position ?? 'not wired'}`).join(', ');

export function DialFigure({ selector }: { readonly selector: Selector }) {
  const spots = dialSpots(selector);
  const at = (degrees: number, radius: number): readonly [number, number] => {
    const turn = (degrees * Math.PI) / 180;
    return [Math.sin(turn) * radius, -Math.cos(turn) * radius];
  };
  return (
    <svg
      className="dial-figure"
      viewBox="-52 -52 104 104"
      role="img"
      aria-label={`Dial of ${selector.name}, clockwise: ${ordinals(selector)}${selector.stops ? ', with end stops' : ', turning all the way round'}`}
    >
      <circle r={KNOB} className="dial-line" />
      {spots.map(({ position, degrees }, index) => {
        const [fromX, fromY] = at(degrees, KNOB + 3);
        const [toX, toY] = at(degrees, REACH - 10);
        const [x, y] = at(degrees, REACH + 3);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a position has no other name than its place
          <g key={index}>
            <line x1={fromX} y1={fromY} x2={toX} y2={toY} className="dial-line" />
            {position === null ? (
              <path
                d={`M${x - 4} ${y - 4}L${x + 4} ${y + 4}M${x + 4} ${y - 4}L${x - 4} ${y + 4}`}
                className="dial-line"
              />
            ) : (
              <text x={x} y={y + LETTER * 0.36} fontSize={LETTER} textAnchor="middle" className="dial-text">
                {position}
              </text>
            )}
          </g>
        );
      })}
      {selector.stops
        ? [spots[0], spots.at(-1)].map((spot, index) => {
            if (spot === undefined) return null;
            const beyond = spot.degrees + (index === 0 ? -14 : 14);
            const [x1, y1] = at(beyond, KNOB);
            const [x2, y2] = at(beyond, KNOB + 9);
            return <line key={beyond} x1={x1} y1={y1} x2={x2} y2={y2} className="dial-stop" />;
          })
        : null}
    </svg>
  );
}
