import type { Motion } from "../../../src/clearance/types.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, type Pose, rotationPose } from "../../../src/maths/pose.ts";
import { add, normalise, scale, type Vec3 } from "../../../src/maths/vec3.ts";
import { randomPoint } from "../kernel/meshes.ts";
import { ball, bar, brick, joined, motion, shiftPose } from "./shapes.ts";

/** A part of one to three convex pieces around a place. */
export function randomPart(random: () => number, around: Vec3 = [0, 0, 0]): Solid {
  const pieces: Solid[] = [];
  const count = 1 + Math.floor(random() * 3);
  for (let i = 0; i < count; i++) {
    const at = add(around, randomPoint(random, 25));
    const kind = random();
    if (kind < 0.35) pieces.push(brick([2 + 50 * random(), 2 + 20 * random(), 1 + 10 * random()], at));
    else if (kind < 0.7) pieces.push(bar(at, add(around, randomPoint(random, 60)), 2 + 12 * random(), 12));
    else pieces.push(ball(4 + 18 * random(), at, 5));
  }
  return pieces.length === 1 ? pieces[0]! : joined(...pieces);
}

/** A smooth motion: a slide at up to 2 mm a mm of travel, and a turn, about a line some way off, at up to 1.5°. */
export function randomMotion(random: () => number, start: Pose, halfRange_mm: number): Motion {
  const slide = randomPoint(random, random() < 0.3 ? 2 : 0.5);
  const about = randomPoint(random, 150);
  const axis = normalise(randomPoint(random, 1));
  const rate = (random() * 1.5 * Math.PI) / 180;
  return motion(-halfRange_mm, halfRange_mm, 1, (travel) =>
    composePoses(composePoses(shiftPose(scale(slide, travel)), rotationPose(axis, rate * travel, about)), start),
  );
}
