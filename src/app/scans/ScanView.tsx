import { lazy, Suspense, useEffect, useMemo, useRef, useState } from "react";
import type { ModelBody, PartGroup } from "../../check/model.ts";
import { applyPose, type Pose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import { Choices } from "../shell/Choices.tsx";
import { livePoses } from "../store/livePoses.ts";
import type { Show, Stand } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { fetchViewport } from "../viewport/fetchViewport.ts";
import type { ProjectedPoint } from "../viewport/marks.ts";
import type { ViewportHandle } from "../viewport/Viewport.tsx";
import { besideTheCar } from "./besideTheCar.ts";
import { pickInCar } from "./carPicks.ts";
import { placingOf } from "./placing.ts";
import { pickOnScan } from "./scanActions.ts";
import { type ScanDraft, type ShownIn, useScan } from "./scanStore.ts";

const Viewport = lazy(fetchViewport);

/** What the scan is called among the bodies that are drawn. */
const KEY = "the scan";
const SOLID: Readonly<Record<PartGroup, Show>> = { chassis: "solid", powertrain: "solid", hub: "solid", arms: "solid" };
const WITHOUT_WHEELS = { ...SOLID, hub: "off" } as const;
const NOTHING: ReadonlySet<string> = new Set();
const SCAN_KEYS: ReadonlySet<string> = new Set([KEY]);
const NO_PATCHES: readonly never[] = [];
const VIEWS: readonly ShownIn[] = ["scan", "car", "both"];

const MOVES = [
  { name: "nearer", sign: "+", move: (view: ViewportHandle) => view.zoomBy(0.8) },
  { name: "farther", sign: "−", move: (view: ViewportHandle) => view.zoomBy(1.25) },
  { name: "left", sign: "⟲", move: (view: ViewportHandle) => view.orbitBy(-15, 0) },
  { name: "right", sign: "⟳", move: (view: ViewportHandle) => view.orbitBy(15, 0) },
  { name: "higher", sign: "▴", move: (view: ViewportHandle) => view.orbitBy(0, 15) },
  { name: "lower", sign: "▾", move: (view: ViewportHandle) => view.orbitBy(0, -15) },
] as const;

interface Mark {
  readonly text: string;
  readonly at: Vec3;
  readonly isPoint?: boolean;
}

/** The scan, the car, or the one in the other, to look at and to pick on. */
export function ScanView() {
  const draft = useScan();
  const { look, shown, picking } = draft;
  const theme = useApp((state) => state.theme);
  const handle = useRef<ViewportHandle>(null);
  const [hasWheels, setWheels] = useState(true);
  const [stand, setStand] = useState<Stand | null>("left");
  const [projected, setProjected] = useState<readonly ProjectedPoint[]>([]);
  const car = useCar(draft.editing, hasWheels);
  const scan = useMemo(() => look && bodyOf(look.view), [look]);
  const { pose } = placingOf(draft);
  const bodies = useMemo(() => {
    if (shown === "scan") return scan ? [scan] : [];
    return shown === "car" || !scan ? car.bodies : [...car.bodies, scan];
  }, [shown, scan, car]);
  const poses = useMemo(
    () =>
      shown === "both" ? new Map<string, Pose>([...car.poses, [KEY, pose]]) : shown === "car" ? car.poses : NO_POSES,
    [shown, car, pose],
  );
  const marks = useMarks(draft, pose);
  const places = useMemo(() => marks.map(({ at }) => at), [marks]);
  // the picture has its bodies by then
  // biome-ignore lint/correctness/useExhaustiveDependencies: framed anew for another mesh or another choice of what is shown
  useEffect(() => {
    // stands frame bodies where they are drawn, which a scan may be far from where it is placed
    if (shown === "both" && scan) {
      setStand(null);
      handle.current?.frame(besideTheCar(car.bodies, scan, pose));
      return;
    }
    setStand("left");
    handle.current?.frame("left");
  }, [shown, scan]);
  return (
    <div className="scan-view" data-picking={picking !== null}>
      <div className="scan-picture">
        <Suspense fallback={null}>
          <Viewport
            ref={handle}
            bodies={bodies}
            poses={poses}
            show={hasWheels ? SOLID : WITHOUT_WHEELS}
            glassKeys={NOTHING}
            heldIds={shown === "both" ? SCAN_KEYS : NOTHING}
            patches={NO_PATCHES}
            crossing={NO_PATCHES}
            theme={theme}
            stand={stand}
            onStandLeft={() => setStand(null)}
            onHold={() => {}}
            onTap={(at) => {
              const sight = handle.current?.sight();
              if (!sight || !picking || shown !== picking.end) return false;
              if (shown === "scan") {
                const { from, way } = sight.rayAt(at.x, at.y);
                void pickOnScan(from, way);
              } else pickInCar(at, sight, car);
              return true;
            }}
            marks={places}
            onProject={setProjected}
            label={t(`scans.view.in3d.${shown}`)}
          />
        </Suspense>
        {marks.map((mark, i) => {
          const spot = projected[i];
          if (!spot?.visible) return null;
          return (
            <span
              key={mark.text}
              className={mark.isPoint ? "scan-point" : "scan-mark"}
              style={{ left: spot.x, top: spot.y }}
              title={mark.isPoint ? mark.text : undefined}
            >
              {mark.isPoint ? "" : mark.text}
            </span>
          );
        })}
      </div>
      <div className="scan-tools">
        <Choices
          label={t("scans.view.label")}
          options={VIEWS.map((value) => ({ value, name: t(`scans.view.names.${value}`) }))}
          value={shown}
          onChoose={(next: ShownIn) => useScan.setState({ shown: next })}
        />
        {MOVES.map(({ name, sign, move }) => (
          <button
            key={name}
            type="button"
            className="button scan-move"
            aria-label={t(`scans.view.${name}`)}
            onClick={() => handle.current && move(handle.current)}
          >
            {sign}
          </button>
        ))}
        {shown !== "scan" && (
          <button type="button" className="button" aria-pressed={!hasWheels} onClick={() => setWheels(!hasWheels)}>
            {t("scans.view.withoutHub")}
          </button>
        )}
      </div>
    </div>
  );
}

const NO_POSES: ReadonlyMap<string, Pose> = new Map();
let drawn = 0;

function bodyOf({ positions, indices }: { positions: Float32Array; indices: Uint32Array }): ModelBody {
  const solid = { positions, indices, shells: [], convexPieces: null };
  return {
    key: KEY,
    id: KEY,
    side: "both",
    mount: "chassis",
    group: "powertrain",
    role: null,
    look: null,
    solid,
    content: `scan-${++drawn}`,
  };
}

/** The car at ride height, the engine at rest, without the part that is being changed. */
function useCar(editing: string | null, hasWheels: boolean) {
  const all = useApp((state) => state.bodies);
  const scene = useApp((state) => state.scene);
  return useMemo(() => {
    const bodies = all.filter(({ id, group }) => id !== editing && (hasWheels || group !== "hub"));
    const shown = { travel_mm: { left: 0, right: 0 }, pose: "rest" };
    return { bodies, poses: scene ? livePoses(scene, bodies, shown) : new Map<string, Pose>() };
  }, [all, scene, editing, hasWheels]);
}

function useMarks({ pairs, shown, picking, step }: ScanDraft, pose: Pose): Mark[] {
  return useMemo(() => {
    const marks: Mark[] = [];
    if (step !== "place" && step !== "fit") return marks;
    pairs.forEach(({ scan, car }, i) => {
      if (scan && shown !== "car")
        marks.push({ text: `${i + 1}`, at: shown === "scan" ? scan : applyPose(pose, scan) });
      if (car && shown === "car") marks.push({ text: `${i + 1}`, at: car });
    });
    if (shown === "car" && picking?.kind === "pair") {
      for (const [name, { at }] of app.getState().scene?.points ?? []) marks.push({ text: name, at, isPoint: true });
    }
    return marks;
  }, [pairs, shown, picking, step, pose]);
}
