import { memo, useEffect, useMemo, useRef, useState } from "react";
import type { CurvePoint } from "../../check/result.ts";
import { axisRange } from "../curves/curveKinds.ts";
import { linePath, type Reading } from "../curves/linePath.ts";
import { PLOT, type PlotBox, PlotFrame } from "../curves/PlotFrame.tsx";
import { linearScale } from "../curves/scale.ts";
import { useSize } from "../shell/useSize.ts";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { angleText, lengthText, MM_PER_INCH, numberText } from "../words/number.ts";
import { curveAt, READINGS, type ReadingName, readingsOf } from "./placeCurves.ts";
import type { RoomRun } from "./roomStore.ts";
import { gridOf } from "./roomTold.ts";
import "../curves/curves.css";

const HEIGHT = 116;
/** The place stands still so long before its curves are worked out. */
const REST_ms = 60;
/** Least span of an axis, in what it shows. */
const LEAST_SPAN: Readonly<Record<ReadingName, number>> = {
  toe_deg: 0.2,
  camber_deg: 0.5,
  halfTrack_mm: 2,
  shaft_mm: 2,
  damperRatio: 0.1,
};

/** The wheel's readings through the travel with the points in a place, against where they are now. */
export const PlaceCurves = memo(function PlaceCurves({ run, place }: { run: RoomRun; place: number }) {
  const unit = useApp((state) => state.unit);
  const frame = useRef<HTMLDivElement>(null);
  const size = useSize(frame);
  const [there, setThere] = useState<{ readonly place: number; readonly curve: readonly CurvePoint[] | null } | null>(
    null,
  );
  const now = useMemo(() => curveAt(run, [0, 0, 0]), [run]);
  useEffect(() => {
    const timer = setTimeout(() => {
      setThere({ place, curve: curveAt(run, gridOf(run.question).offsetOf(place)) });
    }, REST_ms);
    return () => clearTimeout(timer);
  }, [run, place]);
  const width = Math.max(120, Math.floor(((size?.width ?? 360) - 8) / 2));
  const curve = there?.curve ?? null;
  return (
    <div className="room-curves" ref={frame}>
      <h3>{t("room.place.curves")}</h3>
      {there && !curve && <p>{t("room.place.cannot")}</p>}
      {!there && <p className="tool-note">{t("room.place.working")}</p>}
      {now && curve && (
        <>
          <div className="room-curve-grid">
            {READINGS.map((name) => (
              <SmallCurve
                key={name}
                name={name}
                now={shownOf(readingsOf(now, name), name, unit)}
                there={shownOf(readingsOf(curve, name), name, unit)}
                width={width}
                unit={unit}
              />
            ))}
          </div>
          <p className="tool-note">{t("room.place.key")}</p>
        </>
      )}
    </div>
  );
});

/** In the shown unit; the driveshaft as it differs from ride height. */
function shownOf(readings: readonly Reading[], name: ReadingName, unit: Unit): readonly Reading[] {
  const size = name.endsWith("_mm") && unit === "in" ? MM_PER_INCH : 1;
  const ride =
    name === "shaft_mm" && readings.length > 0
      ? readings.reduce((best, each) => (Math.abs(each.travel_mm) < Math.abs(best.travel_mm) ? each : best)).value
      : 0;
  return readings.map(({ travel_mm, value }) => ({ travel_mm, value: (value - ride) / size }));
}

interface SmallCurveProps {
  readonly name: ReadingName;
  readonly now: readonly Reading[];
  readonly there: readonly Reading[];
  readonly width: number;
  readonly unit: Unit;
}

function SmallCurve({ name, now, there, width, unit }: SmallCurveProps) {
  if (there.length === 0 || now.length === 0) return null;
  const values = [...now, ...there].map(({ value }) => value);
  const travels = [...now, ...there].map(({ travel_mm }) => travel_mm);
  const [from, to] = axisRange(values, LEAST_SPAN[name] / (name.endsWith("_mm") && unit === "in" ? MM_PER_INCH : 1));
  const up = linearScale(Math.min(...travels), Math.max(...travels), HEIGHT - PLOT.bottom, PLOT.top);
  const box: PlotBox = { width, height: HEIGHT, up, across: linearScale(from, to, PLOT.left, width - PLOT.right) };
  const path = (line: readonly Reading[]) =>
    linePath(line.map(({ travel_mm, value }) => [box.across(value), up(travel_mm)]));
  const ends = (line: readonly Reading[]) => {
    const all = line.map(({ value }) => value);
    return [Math.min(...all), Math.max(...all)].map((value) => textOf(value, name, unit)) as [string, string];
  };
  const [nowFrom, nowTo] = ends(now);
  const [thereFrom, thereTo] = ends(there);
  const title = t(`room.readings.${name}`);
  return (
    <figure className="room-curve" style={{ width }}>
      <figcaption>
        <span>{title}</span>
        <b className="tabular">
          {thereFrom} … {thereTo}
        </b>
        <small className="tabular">
          {t("room.place.now")} {nowFrom} … {nowTo}
        </small>
      </figcaption>
      <PlotFrame
        box={box}
        label={t("room.place.curve", { name: title, from: thereFrom, to: thereTo, nowFrom, nowTo })}
        signed={name !== "damperRatio" && name !== "halfTrack_mm"}
      >
        <path className="ghost-line" d={path(now)} />
        <path className="curve-line tried" d={path(there)} />
      </PlotFrame>
    </figure>
  );
}

/** `value` is in the shown unit. */
function textOf(value: number, name: ReadingName, unit: Unit): string {
  if (name.endsWith("_deg")) return angleText(value, { signed: true });
  if (name === "damperRatio") return numberText(value, { digits: 2 });
  return lengthText(unit === "in" ? value * MM_PER_INCH : value, unit, { signed: name === "shaft_mm" });
}
