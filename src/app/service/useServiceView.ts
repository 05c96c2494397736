import { useEffect, useMemo } from "react";
import type { ModelBody } from "../../check/model.ts";
import { bounds } from "../../geometry/measure.ts";
import type { Solid } from "../../geometry/solid.ts";
import { applyPose, composePoses, type Pose, rotationPose, turnByPose } from "../../maths/pose.ts";
import { cross, mirror, normalise, subtract, type Vec3 } from "../../maths/vec3.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { ReachJob } from "../../scene/serviceRecords.ts";
import { bodyOfParts } from "../../studies/service/car.ts";
import type { OutState } from "../../studies/service/out.ts";
import type { ToolState } from "../../studies/service/reach.ts";
import { toolBody } from "../../studies/service/tools.ts";
import type { Stage } from "../corner/useStage.ts";
import { viewHandle } from "../shell/viewHandle.ts";
import type { LiveMounts } from "../store/livePoses.ts";
import { useApp } from "../store/useApp.ts";
import { useIsOutdated } from "../studies/StudyLine.tsx";
import { useStudies } from "../studies/studiesStore.ts";
import { useTools } from "../tools/toolsStore.ts";
import type { Focus } from "../viewport/picture.ts";
import type { SweptSurface } from "../viewport/sweptLayer.ts";
import { posesOnPath } from "./pathPoses.ts";
import { serviceQuestion, serviceStudy, shownReport, useServiceLook } from "./serviceStore.ts";

/** A place that is touched, with what touches there. */
export interface ServiceMark {
  readonly at: Vec3;
  readonly part: string;
  /** How deep; null: it is met on a path. */
  readonly depth_mm: number | null;
}

/** What the view shows of a service job: nothing while none is looked at. */
export interface ServiceView {
  readonly poses: ReadonlyMap<string, Pose>;
  readonly tools: readonly SweptSurface[];
  readonly glassKeys: ReadonlySet<string>;
  readonly heldIds: ReadonlySet<string>;
  readonly marks: readonly ServiceMark[];
  /** What to look at more closely; null: nothing. */
  readonly focus: Focus | null;
}

/** What the view shows now, for whoever wants to look closer. */
const now: { focus: Focus | null } = { focus: null };

export function lookCloser(): void {
  if (now.focus) viewHandle.current?.frame(now.focus);
}

const NO_TOOLS: readonly SweptSurface[] = [];
const NO_MARKS: readonly ServiceMark[] = [];
/** The wheels are on their way where they are farther from the told travel than this. */
const THERE_mm = 0.01;
/** So much of the car is shown from close by. */
const CLOSE_mm = 520;

/** A part is drawn on its path and a tool on its fastener only where wheels and engine stand as it was tried. */
export function useServiceView({ poses, mounts, travel_mm, glassKeys, heldIds }: Stage): ServiceView {
  const isOpen = useTools(({ open }) => open === "studies");
  const isService = useStudies(({ study }) => study === "service");
  const look = useServiceLook();
  const document = useApp((state) => state.document);
  const bodies = useApp((state) => state.bodies);
  const pose = useApp((state) => state.pose);
  const told = serviceStudy.use((state) => state.told);
  const question = useMemo(() => document && serviceQuestion(document), [document]);
  const isOutdated = useIsOutdated(serviceStudy, question);
  const { job, side, state, tool, along } = look;
  const scene = useMemo(
    () => (isOpen && isService && told && !isOutdated ? resolveScene(told.question.document) : null),
    [isOpen, isService, told, isOutdated],
  );
  const bare = useMemo(
    (): ServiceView => ({
      poses,
      tools: NO_TOOLS,
      glassKeys,
      heldIds,
      marks: NO_MARKS,
      focus: null,
    }),
    [poses, glassKeys, heldIds],
  );
  const view = useMemo(() => {
    const report = scene && told && job !== null ? shownReport(told.result.jobs, { job, side }) : null;
    if (!scene || !report) return bare;
    const tried = report.kind === "out" ? report.states : report.tools[tool]?.states;
    const shown = tried?.find((each) => each.state === state);
    if (!shown || pose !== "rest" || Math.abs(travel_mm[report.side] - shown.travel_mm) > THERE_mm) return bare;
    const asked = scene.service.jobs.find(({ id }) => id === report.job);
    const off = bodies.filter(bodyOfParts(asked?.removed ?? [])).map(({ key }) => key);
    const base = { ...bare, glassKeys: off.length > 0 ? new Set([...bare.glassKeys, ...off]) : bare.glassKeys };
    if ("walk" in shown) return { ...base, ...onPath(shown, along, poses, bodies) };
    if (asked?.kind !== "reach") return base;
    // the wheel hides what is behind it
    const wheel = bodies.filter(({ id, side: of }) => (id === "tyre" || id === "rim") && of === report.side);
    const glass = new Set([...base.glassKeys, ...wheel.map(({ key }) => key)]);
    return { ...base, glassKeys: glass, ...withTool(scene, asked, report.side, tool, shown, along, mounts) };
  }, [bare, scene, told, job, side, state, tool, along, pose, bodies, poses, mounts, travel_mm]);
  useEffect(() => {
    now.focus = view.focus;
  }, [view.focus]);
  return view;
}

function onPath(
  { walk }: OutState,
  along: number,
  poses: ReadonlyMap<string, Pose>,
  bodies: readonly ModelBody[],
): Partial<ServiceView> {
  const last = walk.steps.at(-1);
  if (!last) return {};
  const moved = posesOnPath(walk.steps, along, poses);
  const { stop } = walk;
  const part = bodies.find(({ key }) => last.moves.includes(key));
  const pose = part && moved.get(part.key);
  const at = stop?.kind === "part" ? stop.where : pose ? applyPose(pose, centreOf(part.solid)) : null;
  const focus = at && { at, span_mm: CLOSE_mm };
  if (stop?.kind !== "part" || along < 1) return { poses: moved, focus };
  return {
    poses: moved,
    focus,
    heldIds: new Set([stop.key]),
    marks: [{ at: stop.where, part: stop.part, depth_mm: null }],
  };
}

function withTool(
  scene: Scene,
  { fastener, tools }: ReachJob,
  side: Side,
  number: number,
  { near, swing }: ToolState,
  along: number,
  mounts: LiveMounts,
): Partial<ServiceView> {
  const tool = tools[number];
  const mount = mounts.get(side)?.get(fastener.mount);
  if (!tool || !mount) return {};
  const seen = (p: Vec3): Vec3 => (side === "right" && fastener.isMirrored ? mirror(p) : p);
  let pose = mount;
  if (swing && swing.widest_deg > 0) {
    const angle_deg = swing.from_deg + along * Math.min(swing.widest_deg, 360);
    const axis = turnByPose(mount, seen(fastener.facing));
    pose = composePoses(rotationPose(axis, (angle_deg * Math.PI) / 180, applyPose(mount, seen(fastener.at))), mount);
  }
  const facing = turnByPose(mount, seen(fastener.facing));
  // from outside, a little above and behind
  const from: Vec3 = [facing[0] - 0.5, facing[1], facing[2] + 0.35];
  const focus: Focus = { at: applyPose(mount, seen(fastener.at)), span_mm: CLOSE_mm, from };
  const touched = near.filter(({ clearance_mm }) => clearance_mm < 0);
  const base = { focus, tools: [surfaceOf(toolBody(scene, fastener, tool, side).solid, pose)] };
  if (touched.length === 0) return base;
  return {
    ...base,
    heldIds: new Set(touched.map(({ key }) => key)),
    // a swing's own places are those of its ends
    marks: touched.map(({ part, where, clearance_mm }) => ({ part, at: where, depth_mm: -clearance_mm })),
  };
}

function centreOf(solid: Solid): Vec3 {
  const { min, max } = bounds(solid);
  return [0, 1, 2].map((k) => (min[k]! + max[k]!) / 2) as unknown as Vec3;
}

/** Each face flat, in car coordinates. */
function surfaceOf({ positions, indices }: Solid, pose: Pose): SweptSurface {
  const corners = new Float32Array(indices.length * 3);
  const normals = new Float32Array(indices.length * 3);
  const place = (vertex: number): Vec3 =>
    applyPose(pose, [positions[3 * vertex]!, positions[3 * vertex + 1]!, positions[3 * vertex + 2]!]);
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [place(indices[i]!), place(indices[i + 1]!), place(indices[i + 2]!)];
    const normal = normalise(cross(subtract(b, a), subtract(c, a)));
    for (const [k, corner] of [a, b, c].entries()) {
      corners.set(corner, 3 * (i + k));
      normals.set(normal, 3 * (i + k));
    }
  }
  const numbers = Uint32Array.from({ length: indices.length }, (_, i) => i);
  return { positions: corners, normals, indices: numbers, tone: "hub", on: null };
}
