import type { Side } from "../../scene/scene.ts";
import { t } from "../text/text.ts";
import { angleText } from "../words/number.ts";

interface AxlePlanProps {
  readonly toe_deg: Readonly<Partial<Record<Side, number>>>;
  /** null with one side. */
  readonly thrust_deg: number | null;
}

const WIDTH = 340;
const HEIGHT = 150;
const MIDDLE = WIDTH / 2;
const AXLE = 84;
const WHEEL = { across: 20, along: 64, out: 118 } as const;
/** Angles are drawn so many times as large: a tenth of a degree can be seen. */
const TIMES = 20;
/** Drawn no farther than this, degrees. */
const MOST_deg = 40;

/** The axle from above, forward at the top: how the wheels stand, and where they steer the car. */
export function AxlePlan({ toe_deg, thrust_deg }: AxlePlanProps) {
  const drawn = (angle_deg: number) => Math.max(-MOST_deg, Math.min(MOST_deg, TIMES * angle_deg));
  const label = [
    ...(["left", "right"] as const).flatMap((side) => {
      const toe = toe_deg[side];
      return toe === undefined ? [] : [t(`asBuilt.plan.${side}`, { toe: angleText(toe, { signed: true }) })];
    }),
    ...(thrust_deg === null ? [] : [t("asBuilt.plan.thrust", { angle: angleText(thrust_deg, { signed: true }) })]),
  ].join(", ");
  return (
    <figure className="axle-plan">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
        <path className="axle-line" d={`M${MIDDLE - WHEEL.out} ${AXLE}H${MIDDLE + WHEEL.out}`} />
        <path className="axle-middle" d={`M${MIDDLE} 10V${HEIGHT - 6}`} />
        {(["left", "right"] as const).map((side) => {
          const toe = toe_deg[side];
          if (toe === undefined) return null;
          // the left wheel is on the left of a car seen from above with forward up; toe in turns its front to the middle
          const sign = side === "left" ? 1 : -1;
          const x = MIDDLE - sign * WHEEL.out;
          return (
            <g key={side} transform={`rotate(${sign * drawn(toe)} ${x} ${AXLE})`}>
              <rect
                className="axle-wheel"
                x={x - WHEEL.across / 2}
                y={AXLE - WHEEL.along / 2}
                width={WHEEL.across}
                height={WHEEL.along}
                rx="5"
              />
              <path className="axle-middle" d={`M${x} ${AXLE - WHEEL.along / 2 - 12}V${AXLE + WHEEL.along / 2 + 12}`} />
            </g>
          );
        })}
        {thrust_deg !== null && (
          <g transform={`rotate(${drawn(thrust_deg)} ${MIDDLE} ${AXLE})`}>
            <path className="axle-thrust" d={`M${MIDDLE} ${AXLE}V18M${MIDDLE - 6} 30L${MIDDLE} 16L${MIDDLE + 6} 30`} />
          </g>
        )}
      </svg>
      <figcaption className="tool-note">{t("asBuilt.plan.key", { times: TIMES })}</figcaption>
    </figure>
  );
}
