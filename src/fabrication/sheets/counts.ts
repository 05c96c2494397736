import type { SceneDocument } from "../../scene/document.ts";
import { jointNames, partOfJoint } from "../../scene/jointNames.ts";
import type { Scene } from "../../scene/scene.ts";
import type { TubeEnd } from "../../scene/tubeEnds.ts";
import { simpleShapes } from "./shapesOf.ts";
import { threadName } from "./threadEnd.ts";

/** So many of one thing. `size` is empty where it is told nowhere. */
export interface Count {
  readonly what: "bolt" | "rod end" | "ball joint" | "bush" | "lock nut" | "adapter" | "sleeve" | "plate";
  readonly size: string;
  readonly count: number;
  /** Joints or parts that they belong to. */
  readonly at: readonly string[];
}

/**
 * Bolts, rod ends and what goes with them by joint, and plates by thickness, for all sides that the scene has. The driveshaft's joints come with the shaft, a
 * ball joint brings its own stud, and of plates those count that are drawn as brackets.
 */
export function countedParts(document: SceneDocument, scene: Scene, ends: ReadonlyMap<string, TubeEnd>): Count[] {
  const counts = new Map<string, { what: Count["what"]; size: string; count: number; at: string[] }>();
  const add = (what: Count["what"], size: string, count: number, at: string): void => {
    const key = `${what} ${size}`;
    const line = counts.get(key) ?? { what, size, count: 0, at: [] };
    line.count += count;
    if (!line.at.includes(at)) line.at.push(at);
    counts.set(key, line);
  };
  const sides = scene.sides.length;
  for (const joint of jointNames(document)) {
    if (partOfJoint(joint) === "driveshaft") continue;
    const end = ends.get(joint);
    const kind = scene.joints.find((fit) => fit.joint === joint)?.kind ?? (end?.kind === "rod end" ? "rod end" : null);
    const bolt = scene.loads.bolts.find((record) => record.joint === joint);
    if (bolt) add("bolt", `${bolt.thread} ${bolt.class}`, sides, joint);
    else if (kind !== "ball joint" && joint !== "bar.pivot") add("bolt", "", sides, joint);
    // a wishbone's outboard joint holds both of its legs, and is one
    if (kind) add(kind, kind === "rod end" && end?.kind === "rod end" ? threadName(end) : "", sides, joint);
    if (end?.kind === "rod end") {
      add("lock nut", threadName(end), sides, joint);
      add("adapter", threadName(end), sides, joint);
    }
    if (end?.kind === "sleeve") add("sleeve", `Ø ${end.outside_mm}`, sides, joint);
  }
  for (const body of scene.bodies) {
    if (body.role !== "bracket") continue;
    const copies = body.on === "chassis" || body.on === "powertrain" ? (body.mirror ? sides : 1) : sides;
    for (const { shape } of simpleShapes(body.shape)) {
      const thickness = thicknessOf(shape);
      if (thickness !== null) add("plate", `${Math.round(thickness * 100) / 100} mm`, copies, body.id);
    }
  }
  const order: readonly Count["what"][] = [
    ...(["bolt", "rod end", "lock nut", "adapter"] as const),
    ...(["ball joint", "bush", "sleeve", "plate"] as const),
  ];
  return [...counts.values()].sort((a, b) => order.indexOf(a.what) - order.indexOf(b.what));
}

/** A plate is thinner than a third of its width. */
const PLATE_SHARE = 3;

function thicknessOf(shape: ReturnType<typeof simpleShapes>[number]["shape"]): number | null {
  if (shape.kind === "prism") {
    const spans = ([0, 1] as const).map((axis) => {
      const values = shape.outline.map((corner) => corner[axis]);
      return Math.max(...values) - Math.min(...values);
    });
    return Math.min(...spans) >= PLATE_SHARE * shape.thickness_mm ? shape.thickness_mm : null;
  }
  if (shape.kind === "box") {
    const [thin, wide] = [...shape.size_mm].sort((a, b) => a - b) as [number, number, number];
    return wide >= PLATE_SHARE * thin ? thin : null;
  }
  return null;
}
