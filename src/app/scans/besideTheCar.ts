import type { ModelBody } from "../../check/model.ts";
import { bounds } from "../../geometry/measure.ts";
import { applyPose, type Pose } from "../../maths/pose.ts";
import { mix, type Vec3 } from "../../maths/vec3.ts";
import { standDirection } from "../viewport/cameraPlace.ts";
import type { Focus } from "../viewport/picture.ts";

interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

/** Room beside what is framed, and how much wider than high a picture is at least. */
const ROOM = 1.15;
const WIDER = 1.6;

/** A look from the left at all of the car and at the scan where it is placed. */
export function besideTheCar(car: readonly ModelBody[], scan: ModelBody, pose: Pose): Focus {
  const { min, max } = around([...car.map(({ solid }) => bounds(solid)), placedBox(scan, pose)]);
  const { azimuth_rad, elevation_rad } = standDirection("left");
  const flat = Math.cos(elevation_rad);
  return {
    at: mix(min, max, 0.5),
    span_mm: ROOM * Math.max(max[2] - min[2], (max[0] - min[0]) / WIDER),
    from: [Math.cos(azimuth_rad) * flat, Math.sin(azimuth_rad) * flat, Math.sin(elevation_rad)],
  };
}

/** Round the box of its mesh where the pose has it. */
function placedBox({ solid }: ModelBody, pose: Pose): Box {
  const { min, max } = bounds(solid);
  const corners = Array.from({ length: 8 }, (_, c) =>
    applyPose(pose, [(c & 1 ? max : min)[0], (c & 2 ? max : min)[1], (c & 4 ? max : min)[2]]),
  );
  return around(corners.map((corner) => ({ min: corner, max: corner })));
}

function around(boxes: readonly Box[]): Box {
  const least = (k: 0 | 1 | 2) => Math.min(...boxes.map(({ min }) => min[k]));
  const most = (k: 0 | 1 | 2) => Math.max(...boxes.map(({ max }) => max[k]));
  return { min: [least(0), least(1), least(2)], max: [most(0), most(1), most(2)] };
}
