import type { PerspectiveCamera } from "three";
import type { Vec3 } from "../../maths/vec3.ts";
import { type CameraPlace, cameraFrame } from "./cameraPlace.ts";

/** What the depth buffer must hold: a sphere round the car, mm. */
export interface Reach {
  readonly centre: Vec3;
  readonly radius_mm: number;
}

/**
 * Puts three's camera where the builder stands. `shift` moves the picture's middle, CSS px right and up; `nearest_mm` cuts away
 * what is nearer to the eye than that.
 */
export function aim(
  camera: PerspectiveCamera,
  place: CameraPlace,
  size: { readonly width: number; readonly height: number },
  lens_deg: number,
  shift: { readonly x: number; readonly y: number },
  reach: Reach,
  nearest_mm = 0,
): void {
  const { right, up, back, eye } = cameraFrame(place);
  const world = camera.matrixWorld.elements;
  const columns = [right, up, back, eye];
  for (let c = 0; c < 4; c++) {
    for (let r = 0; r < 3; r++) world[c * 4 + r] = columns[c]![r]!;
    world[c * 4 + 3] = c === 3 ? 1 : 0;
  }
  camera.matrixWorldInverse.copy(camera.matrixWorld).invert();
  const depth =
    back[0] * (eye[0] - reach.centre[0]) + back[1] * (eye[1] - reach.centre[1]) + back[2] * (eye[2] - reach.centre[2]);
  camera.near = Math.max(depth - reach.radius_mm, nearest_mm, 0.02 * place.distance_mm, 4);
  camera.far = Math.max(depth + reach.radius_mm, camera.near + 10);
  camera.fov = lens_deg;
  camera.aspect = size.width / size.height;
  const half = camera.near * Math.tan((lens_deg * Math.PI) / 360);
  const perPixel = (2 * half) / size.height;
  const [cx, cy] = [-shift.x * perPixel, -shift.y * perPixel];
  const across = half * camera.aspect;
  camera.projectionMatrix.makePerspective(
    cx - across,
    cx + across,
    cy + half,
    cy - half,
    camera.near,
    camera.far,
    camera.coordinateSystem,
  );
  camera.projectionMatrixInverse.copy(camera.projectionMatrix).invert();
}
