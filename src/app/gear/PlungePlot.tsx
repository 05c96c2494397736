import { useMemo } from "react";
import type { Driveshaft, Side } from "../../scene/scene.ts";
import type { ShaftState, ShaftStudy } from "../../studies/runningGear/shaft.ts";
import { linePath } from "../curves/linePath.ts";
import { linearScale, roundTicks, type Scale, tickDigits } from "../curves/scale.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { angleText, lengthText, MM_PER_INCH, numberText } from "../words/number.ts";
import "../curves/curves.css";

interface PlungePlotProps {
  readonly study: ShaftStudy;
  readonly inner: Driveshaft["inner"][Side];
  readonly unit: Unit;
  readonly width: number;
  /** Both sides' plots have the same axes. */
  readonly axes: PlotAxes;
  readonly now: { readonly plunge_mm: number; readonly angle_deg: number } | null;
}

export interface PlotAxes {
  readonly plunge_mm: readonly [number, number];
  readonly angle_deg: number;
}

const HEIGHT = 170;
const EDGE = { left: 30, right: 6, top: 6, bottom: 34 } as const;
/** Air around what is drawn, as a share of it. */
const AIR = 0.08;

/** Axes that hold these sides' states and what their joints allow. */
export function axesOf(studies: readonly ShaftStudy[], inner: Driveshaft["inner"]): PlotAxes {
  const plunges = studies.flatMap(({ side, plot, ride }) => [
    ...plot.map(({ plunge_mm }) => plunge_mm),
    ...[inner[side].shortest_mm, inner[side].longest_mm].flatMap((end) => (end === null ? [] : end - ride.shaft_mm)),
  ]);
  const angles = studies.flatMap(({ side, plot }) => [
    ...plot.map(({ innerAngle_deg }) => innerAngle_deg),
    inner[side].angleLimit_deg ?? 0,
  ]);
  const [low, high] = [Math.min(...plunges), Math.max(...plunges)];
  const air = Math.max(1, AIR * (high - low));
  return { plunge_mm: [low - air, high + air], angle_deg: (1 + AIR) * Math.max(1, ...angles) };
}

/** The inner joint's plunge against its angle over the travel, a line for each pose of the engine, within what the joint allows. */
export function PlungePlot({ study, inner, unit, width, axes, now }: PlungePlotProps) {
  const size = unit === "in" ? MM_PER_INCH : 1;
  const { across, up } = scalesOf(axes, width);
  const lines = useMemo(() => linesOf(study, scalesOf(axes, width)), [study, axes, width]);
  const label = t("gear.shaft.plot.label", {
    side: t(`gear.sides.${study.side}`),
    from: lengthText(Math.min(...study.plot.map(({ plunge_mm }) => plunge_mm)), unit, { signed: true }),
    to: lengthText(Math.max(...study.plot.map(({ plunge_mm }) => plunge_mm)), unit, { signed: true }),
    angle: angleText(study.innerAngle.value, { digits: 1 }),
  });
  return (
    <figure className="plunge-plot">
      <figcaption>{t(`gear.sides.${study.side}`)}</figcaption>
      <svg
        className="plot"
        width={width}
        height={HEIGHT}
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="img"
        aria-label={label}
      >
        <rect
          className="field-of-plot"
          x={EDGE.left}
          y={EDGE.top}
          width={width - EDGE.left - EDGE.right}
          height={HEIGHT - EDGE.top - EDGE.bottom}
        />
        <Allowed study={study} inner={inner} across={across} up={up} />
        <Grid across={across} up={up} size={size} width={width} />
        {lines.map(({ pose, path }) => (
          <path key={pose} className={pose === "rest" ? "curve-line" : "curve-line thin"} d={path} />
        ))}
        {now && <circle className="reading-mark" cx={across(now.plunge_mm)} cy={up(now.angle_deg)} r="4.6" />}
        <text className="tick" x={(EDGE.left + width - EDGE.right) / 2} y={HEIGHT - 3} textAnchor="middle">
          {t("gear.shaft.plot.plunge", { unit })}
        </text>
      </svg>
    </figure>
  );
}

interface Scales {
  readonly across: Scale;
  readonly up: Scale;
}

function scalesOf({ plunge_mm: [low, high], angle_deg }: PlotAxes, width: number): Scales {
  return {
    across: linearScale(low, high, EDGE.left, width - EDGE.right),
    up: linearScale(0, angle_deg, HEIGHT - EDGE.bottom, EDGE.top),
  };
}

/** A line for each pose of the engine. */
function linesOf({ plot }: ShaftStudy, { across, up }: Scales): { readonly pose: string; readonly path: string }[] {
  const poses = [...new Set(plot.map(({ at }) => at.pose))];
  const spot = ({ plunge_mm, innerAngle_deg }: ShaftState) => [across(plunge_mm), up(innerAngle_deg)] as const;
  return poses.map((pose) => ({ pose, path: linePath(plot.filter(({ at }) => at.pose === pose).map(spot)) }));
}

type Drawn = Pick<PlungePlotProps, "study" | "inner"> & Scales;

/** The joint's stroke and angle: left open where one of them is not told. */
function Allowed({ study, inner, across, up }: Drawn) {
  const { shortest_mm, longest_mm, angleLimit_deg } = inner;
  if (shortest_mm === null && longest_mm === null && angleLimit_deg === null) return null;
  const ride_mm = study.ride.shaft_mm;
  const left = across(shortest_mm === null ? across.from : shortest_mm - ride_mm);
  const right = across(longest_mm === null ? across.to : longest_mm - ride_mm);
  const top = up(angleLimit_deg ?? up.to);
  return (
    <>
      <rect className="allowed-field" x={left} y={top} width={right - left} height={up(0) - top} />
      {shortest_mm !== null && <path className="allowed-edge" d={`M${left} ${top}V${up(0)}`} />}
      {longest_mm !== null && <path className="allowed-edge" d={`M${right} ${top}V${up(0)}`} />}
      {angleLimit_deg !== null && <path className="allowed-edge" d={`M${left} ${top}H${right}`} />}
    </>
  );
}

function Grid({ across, up, size, width }: { across: Scale; up: Scale; size: number; width: number }) {
  const plunges = roundTicks(across.from / size, across.to / size, 4);
  const angles = roundTicks(0, up.to, 4);
  const foot = up(0);
  return (
    <>
      {plunges.map((tick) => (
        <g key={tick}>
          <path className={tick === 0 ? "ride-grid" : "grid"} d={`M${across(tick * size)} ${EDGE.top}V${foot}`} />
          <text className="tick" x={across(tick * size)} y={foot + 14} textAnchor="middle">
            {numberText(tick, { digits: tickDigits(plunges), signed: true })}
          </text>
        </g>
      ))}
      {angles.map((tick) => (
        <g key={tick}>
          <path className="grid" d={`M${EDGE.left} ${up(tick)}H${width - EDGE.right}`} />
          <text className="tick" x={EDGE.left - 4} y={up(tick)} dy="0.36em" textAnchor="end">
            {angleText(tick, { digits: tickDigits(angles) })}
          </text>
        </g>
      ))}
    </>
  );
}
