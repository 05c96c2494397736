import { useMemo } from "react";
import {
  bodyKeyOf,
  lineNow,
  type MeasuredState,
  type MeasureReading,
  readMeasure,
  spotNow,
} from "../../check/measures.ts";
import type { Gap } from "../../clearance/gap.ts";
import { bounds } from "../../geometry/measure.ts";
import { applyPose } from "../../maths/pose.ts";
import { add, mix, scale, type Vec3 } from "../../maths/vec3.ts";
import type { Measure } from "../../scene/measures.ts";
import { ridesOfPoints } from "../../scene/pointRide.ts";
import type { Datum } from "../../scene/scene.ts";
import type { Stage } from "../corner/useStage.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { datumOf } from "../points/usePointMove.ts";
import { useApp } from "../store/useApp.ts";
import { useTools } from "../tools/toolsStore.ts";
import { useGaps } from "./gapsNow.ts";
import { type Picked, useMeasuring } from "./measuring.ts";

/** A pinned measure where it is now. */
export interface ShownMeasure {
  readonly measure: Measure;
  readonly reading: MeasureReading | null;
  readonly gap: Gap | null;
  /** What is drawn of it, car coordinates: two ends, or end, corner, end; nothing while hidden or lost. */
  readonly points: readonly Vec3[];
}

export interface MeasureView {
  readonly state: MeasuredState | null;
  readonly measures: readonly ShownMeasure[];
  /** Places picked so far, and the one under the pointer last. */
  readonly picked: readonly { readonly at: Vec3; readonly isHover: boolean }[];
  /** Of the measures one after another, then of the picks. */
  readonly marks: readonly Vec3[];
}

const NO_MEASURES: readonly Measure[] = [];
/** Half the stroke that shows an axis or a face's way. */
const STROKE_mm = 60;

export function useMeasureView(stage: Stage): MeasureView {
  const document = useApp((state) => state.document);
  const scene = useApp((state) => state.scene);
  const bodies = useApp((state) => state.bodies);
  const gaps = useGaps((state) => state.byId);
  const picks = useMeasuring((state) => state.picks);
  const hover = useMeasuring((state) => state.hover);
  const isOpen = useTools(({ open }) => open === "measure");
  const datum = datumOf(
    scene,
    usePointsLook((look) => look.datumId),
  );
  const list = document?.measures ?? NO_MEASURES;
  const needsState = list.length > 0 || isOpen;
  const { poses, mounts } = stage;
  const rides = useMemo(() => (document ? ridesOfPoints(document) : null), [document]);
  const state = useMemo(
    () => (needsState && scene && rides ? { scene, poses, mounts, rides } : null),
    [needsState, scene, poses, mounts, rides],
  );
  const measures = useMemo(() => (state ? shownMeasures(list, state, datum, gaps) : []), [state, list, datum, gaps]);
  const picked = useMemo(() => {
    if (!state || !isOpen) return [];
    const middleOf = (pick: Picked): Vec3 | null => {
      if (pick.what === "spot") return spotNow(pick.spot, state);
      if (pick.what === "line") return lineNow(pick.line, state)?.at ?? null;
      const key = bodyKeyOf(pick.body);
      const body = bodies.find((each) => each.key === key);
      const pose = state.poses.get(key);
      if (!body || !pose) return null;
      const { min, max } = bounds(body.solid);
      return applyPose(pose, mix(min, max, 0.5));
    };
    const all = hover ? [...picks, hover] : picks;
    return all.flatMap((pick, i) => {
      const at = middleOf(pick);
      return at ? [{ at, isHover: i >= picks.length }] : [];
    });
  }, [state, isOpen, picks, hover, bodies]);
  const marks = useMemo(
    () => [...measures.flatMap(({ points }) => points), ...picked.map(({ at }) => at)],
    [measures, picked],
  );
  return { state, measures, picked, marks };
}

/** What is told and drawn of each measure in that state; `gaps` as they were measured last. */
export function shownMeasures(
  list: readonly Measure[],
  state: MeasuredState,
  datum: Datum | null,
  gaps: ReadonlyMap<string, Gap>,
): ShownMeasure[] {
  return list.map((measure) => {
    const reading = readMeasure(measure, state, datum);
    const gap = gaps.get(measure.id) ?? null;
    const points = measure.hidden || !reading ? [] : pointsOf(measure, reading, gap, state);
    return { measure, reading, gap, points };
  });
}

function pointsOf(measure: Measure, reading: MeasureReading, gap: Gap | null, state: MeasuredState): readonly Vec3[] {
  switch (reading.kind) {
    case "distance":
      return [reading.from, reading.to];
    case "angle":
      return [reading.from, reading.at, reading.to];
    case "lines":
      if (measure.kind !== "lines") return [];
      return [measure.a, measure.b].flatMap((line) => {
        const now = lineNow(line, state);
        if (!now) return [];
        const back = line.is === "axis" ? -STROKE_mm : 0;
        return [add(now.at, scale(now.way, back)), add(now.at, scale(now.way, STROKE_mm))];
      });
    case "gap": {
      const [a, b] = reading.keys.map((key) => state.poses.get(key));
      // its ends ride on the parts until the next measure tells better
      return gap && a && b && Number.isFinite(gap.clearance_mm)
        ? [applyPose(a, gap.pointA), applyPose(b, gap.pointB)]
        : [];
    }
  }
}
