import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { applyPose } from "../../src/maths/pose.ts";
import { distance, mix, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { LinkMember } from "../../src/scene/scene.ts";
import { studyCorner } from "./studyCorner.ts";

/** The corner with its engine held still and nothing but the rail asked for: the rest of this corner is in its own way. */
export const railOnly = (): SceneDocument => {
  const corner = studyCorner();
  return {
    ...corner,
    tessellation_mm: 0.05,
    bodies: corner.bodies.map((body) => ({ ...body, role: "rail" })),
    clearances: { default_mm: 0, rules: [{ a: "sump-rail", b: "upper", mm: 10 }] },
  };
};

/** Gap of a straight upper link (Ø30 unless told) and the sump rail's edge at full bump with the tail rocked down, by two lines in space: no triangles. */
export function railGap(document: SceneDocument, diameter_mm = 30): number {
  const scene = resolveScene(document);
  const corner = compileCorner(scene, "left");
  const poses = mountPoses(corner, solveCorner(corner, 60).pose, "tail-down");
  const [upper] = scene.members.filter((member) => member.kind === "link" && member.id === "upper") as [LinkMember];
  const link = [upper.inboard, upper.outboard].map((p) => applyPose(poses.get("upper")!, p)) as [Vec3, Vec3];
  const edge = [120, -80].map((x) => applyPose(poses.get("powertrain")!, [x, 455, 462])) as [Vec3, Vec3];
  // the distance of points of two segments is convex in both shares
  const least = (f: (t: number) => number): number => {
    let [low, high] = [0, 1];
    for (let i = 0; i < 40; i++) {
      const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
      if (f(p) < f(q)) high = q;
      else low = p;
    }
    return f((low + high) / 2);
  };
  return least((t) => least((u) => distance(mix(link[0], link[1], t), mix(edge[0], edge[1], u)))) - diameter_mm / 2;
}
