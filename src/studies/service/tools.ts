import type { SweepBody } from "../../clearance/types.ts";
import { buildSolid } from "../../geometry/buildSolid.ts";
import { contentKey } from "../../geometry/content.ts";
import { mirrorSolid } from "../../geometry/rearrange.ts";
import { add, cross, dot, length, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { Scene, Shape, Side } from "../../scene/scene.ts";
import type { Fastener, ServiceTool } from "../../scene/serviceRecords.ts";

/** Within this beyond the tool's own rim the part that a fastener sits in does not count: the tool sits on it. */
const SEAT_mm = 3;
const HEAD_EDGES = 16;

/** The tool on the fastener, as drawn for the left corner. A spanner's handle points to `handleOf`. */
export function toolShape(fastener: Pick<Fastener, "at" | "facing">, tool: ServiceTool): Shape {
  const { at, facing } = fastener;
  const bare = { at: null, turn_deg: null };
  if (tool.kind === "socket") {
    const { diameter_mm, length_mm } = tool;
    return { ...bare, kind: "cylinder", from: at, to: add(at, scale(facing, length_mm)), diameter_mm };
  }
  if (tool.kind === "arm") {
    const { diameter_mm, by, off_mm } = tool;
    const places = [add(at, scale(facing, off_mm + diameter_mm / 2))];
    for (const each of by) places.push(add(places.at(-1)!, each));
    const parts = by.map(
      (_, i): Shape => ({ ...bare, kind: "capsule", from: places[i]!, to: places[i + 1]!, diameter_mm }),
    );
    return { ...bare, kind: "group", parts };
  }
  const u = handleOf(facing);
  const radius = tool.width_mm / 2;
  const half = Math.PI / HEAD_EDGES / 2;
  const head = Array.from({ length: HEAD_EDGES }, (_, i): [number, number] => {
    const angle = Math.PI / 2 + (2 * i + 1) * half;
    return [(radius / Math.cos(half)) * Math.cos(angle), (radius / Math.cos(half)) * Math.sin(angle)];
  });
  const outline: [number, number][] = [[tool.length_mm, -radius], [tool.length_mm, radius], ...head];
  const origin = add(at, scale(facing, tool.off_mm));
  const v = cross(facing, u);
  return { ...bare, kind: "prism", outline, holes: [], thickness_mm: tool.thickness_mm, origin, u, v };
}

/** The way a spanner's handle points before it swings: up, or forward where the fastener faces up or down. */
export function handleOf(facing: Vec3): Vec3 {
  const wanted: Vec3 = Math.abs(facing[2]) > 0.9 ? [1, 0, 0] : [0, 0, 1];
  return normalise(subtract(wanted, scale(facing, dot(wanted, facing))));
}

/** How far from the fastener the surface of the part that it sits in does not count against the tool. */
export function seatRadius_mm(tool: ServiceTool): number {
  return (tool.kind === "spanner" ? tool.width_mm : tool.diameter_mm) / 2 + SEAT_mm;
}

/** How far a tool gets from the fastener's axis. */
export function reachOf(tool: ServiceTool): number {
  if (tool.kind === "spanner") return Math.hypot(tool.length_mm, tool.width_mm / 2);
  if (tool.kind === "socket") return tool.diameter_mm / 2;
  return tool.by.reduce((sum, each) => sum + length(each), tool.diameter_mm);
}

/** The tool as a body to measure, in design position of its side. */
export function toolBody(scene: Scene, fastener: Fastener, tool: ServiceTool, side: Side): SweepBody {
  const shape = toolShape(fastener, tool);
  const context = { tessellation_mm: Math.min(scene.tessellation_mm, 0.1), wheel: scene.wheel, meshFiles: new Map() };
  const solid = buildSolid(shape, context);
  const content = contentKey(shape, context);
  if (side === "left" || !fastener.isMirrored) return { key: "tool", solid, content };
  return { key: "tool", solid: mirrorSolid(solid), content: `mirror:${content}` };
}
