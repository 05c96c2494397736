import type { Side } from "../../scene/scene.ts";
import { useApp } from "../store/useApp.ts";
import type { ProjectedPoint } from "../viewport/picture.ts";
import { useProjected } from "./projected.ts";

export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

interface ViewLinesProps {
  readonly hasTouch: boolean;
  /** The close look, from which a line leads to the ring on the touch; null: none. */
  readonly lens: Circle | null;
  /** Where each wheel's flag points from, px of the view. */
  readonly flags: Readonly<Partial<Record<Side, { readonly x: number; readonly y: number }>>>;
}

/** Radius of the ring on the touch, px. */
export const TOUCH_RING = 24;

/** Ring on the touch with its line from the close look; crosses on the wheel centres with dashes to their flags. */
export function ViewLines({ hasTouch, lens, flags }: ViewLinesProps) {
  const points = useProjected((state) => state.points);
  const sides = useApp((state) => state.scene?.sides) ?? [];
  const touch = hasTouch ? points[0] : undefined;
  const centres = hasTouch ? points.slice(1) : points;
  return (
    <svg className="view-lines" aria-hidden="true">
      {sides.map((side, i) => {
        const [centre, flag] = [centres[i], flags[side]];
        return centre?.visible && <WheelCross key={side} centre={centre} flag={flag} />;
      })}
      {touch?.visible && <TouchRing at={touch} lens={lens} />}
    </svg>
  );
}

function WheelCross({ centre, flag }: { centre: ProjectedPoint; flag: { x: number; y: number } | undefined }) {
  const { x, y } = centre;
  return (
    <g className="wheel-cross">
      {flag && <path className="to-flag" d={`M${flag.x} ${flag.y}L${x} ${y}`} />}
      <circle cx={x} cy={y} r="9" />
      <path d={`M${x - 14} ${y}h28M${x} ${y - 14}v28`} />
    </g>
  );
}

function TouchRing({ at, lens }: { at: ProjectedPoint; lens: Circle | null }) {
  const line = lens && leader(lens, at);
  return (
    <>
      {(["halo", "ink"] as const).map((stroke) => (
        <g key={stroke} className={`touch-ring ${stroke}`}>
          {line && <path d={line} />}
          <circle cx={at.x} cy={at.y} r={TOUCH_RING} />
        </g>
      ))}
    </>
  );
}

/** From the lens's edge to the ring's; null where they meet. */
function leader(lens: Circle, { x, y }: ProjectedPoint): string | null {
  const [dx, dy] = [x - lens.x, y - lens.y];
  const size = Math.hypot(dx, dy);
  if (size < lens.radius + TOUCH_RING + 8) return null;
  const [ux, uy] = [dx / size, dy / size];
  const from = lens.radius + 8;
  return `M${lens.x + ux * from} ${lens.y + uy * from}L${x - ux * TOUCH_RING} ${y - uy * TOUCH_RING}`;
}
