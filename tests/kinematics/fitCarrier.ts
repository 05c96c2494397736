import { applyPose, composePoses, identityPose, type Pose, rotationPose, turnByPose } from "../../src/maths/pose.ts";
import { cross, distance, length, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { Member, Scene } from "../../src/scene/scene.ts";

/**
 * A second way to the carrier's pose that shares nothing with the solver: Levenberg–Marquardt with a difference Jacobian
 * on plain statements about points (more of them than unknowns), stepped out from the drawn position.
 */
export function fitCarrier(scene: Scene, travel_mm: number, step_mm: number): { pose: Pose; misfit_mm: number } {
  let pose = identityPose();
  const steps = Math.ceil(Math.abs(travel_mm) / step_mm);
  for (let i = 1; i <= steps; i++) pose = settle(scene, (travel_mm * i) / steps, pose);
  return { pose, misfit_mm: Math.sqrt(sumOfSquares(misfits(scene, travel_mm, pose))) };
}

function misfits(scene: Scene, travel_mm: number, pose: Pose): number[] {
  const height = applyPose(pose, scene.wheel.centre)[2] - scene.wheel.centre[2] - travel_mm;
  return [height, ...scene.members.flatMap((member) => memberMisfits(member, pose))];
}

function memberMisfits(member: Member, pose: Pose): number[] {
  const kept = (anchor: Vec3, point: Vec3) => distance(anchor, applyPose(pose, point)) - distance(anchor, point);
  const stays = (point: Vec3) => [...subtract(applyPose(pose, point), point)];
  switch (member.kind) {
    case "link":
      return [kept(member.inboard, member.outboard)];
    case "wishbone":
      return [kept(member.front, member.outboard), kept(member.rear, member.outboard)];
    case "ball":
      return stays(member.at);
    case "hinge":
      return [...stays(member.front), ...stays(member.rear)];
    case "strut": {
      const axis = turnByPose(pose, normalise(subtract(member.top, member.bottom)));
      return [...cross(subtract(member.top, applyPose(pose, member.bottom)), axis)];
    }
  }
}

function moved(scene: Scene, pose: Pose, by: readonly number[]): Pose {
  const turn: Vec3 = [by[0]! / 300, by[1]! / 300, by[2]! / 300];
  const angle = length(turn);
  const centre = applyPose(pose, scene.wheel.centre);
  const next = composePoses(rotationPose(angle === 0 ? [1, 0, 0] : scale(turn, 1 / angle), angle, centre), pose);
  for (let row = 0; row < 3; row++) next[row * 4 + 3]! += by[3 + row]!;
  return next;
}

function settle(scene: Scene, travel_mm: number, start: Pose): Pose {
  let pose = start;
  let damping = 1e-3;
  let values = misfits(scene, travel_mm, pose);
  for (let i = 0; i < 200 && sumOfSquares(values) > 1e-20; i++) {
    const columns = Array.from({ length: 6 }, (_, k) => {
      const by = [0, 0, 0, 0, 0, 0];
      by[k] = 1e-4;
      const plus = misfits(scene, travel_mm, moved(scene, pose, by));
      by[k] = -1e-4;
      const minus = misfits(scene, travel_mm, moved(scene, pose, by));
      return plus.map((value, row) => (value - minus[row]!) / 2e-4);
    });
    const normal = columns.map((a, k) =>
      columns.map((b, m) => a.reduce((sum, value, row) => sum + value * b[row]!, 0) + (k === m ? damping : 0)),
    );
    const right = columns.map((a) => -a.reduce((sum, value, row) => sum + value * values[row]!, 0));
    const candidate = moved(scene, pose, eliminate(normal, right));
    const next = misfits(scene, travel_mm, candidate);
    if (sumOfSquares(next) < sumOfSquares(values)) {
      pose = candidate;
      values = next;
      damping /= 10;
    } else damping *= 10;
    if (damping > 1e6) break;
  }
  return pose;
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}

/** Gauss–Jordan elimination with row pivoting. */
function eliminate(matrix: number[][], right: number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let row = k; row < n; row++) if (Math.abs(rows[row]![k]!) > Math.abs(rows[best]![k]!)) best = row;
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    for (let row = 0; row < n; row++) {
      if (row === k) continue;
      const factor = rows[row]![k]! / rows[k]![k]!;
      for (let column = k; column <= n; column++) rows[row]![column]! -= factor * rows[k]![column]!;
    }
  }
  return rows.map((row, k) => row[n]! / row[k]!);
}
