import { Sphere, Vector3 } from "three";
import { cross, dot, length, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { Show } from "../store/state.ts";
import type { BodyLayer, Part } from "./bodyLayer.ts";
import { type CameraPlace, directionAngles, LENS_DEG } from "./cameraPlace.ts";
import type { SecondViewSpec } from "./secondView.ts";

export function secondPlace(spec: SecondViewSpec): { place: CameraPlace; lens_deg: number; nearest_mm: number } {
  const distance_mm = spec.span_mm / (2 * Math.tan((LENS_DEG * Math.PI) / 360));
  return {
    place: { target: spec.at, ...directionAngles(spec.from), distance_mm },
    lens_deg: LENS_DEG,
    nearest_mm: distance_mm * 0.2,
  };
}

/** The touching pair stays; what reaches before the touch, seen from the eye, goes; what stands behind it stays for the eye to hold on to. */
export function closeLookStyle(
  spec: SecondViewSpec,
  bodies: BodyLayer,
  shown: (part: Part) => Show,
): (part: Part) => Show {
  const { pair } = spec;
  if (pair === null) return shown;
  const towards = new Vector3(...spec.from).normalize();
  const at = new Vector3(...spec.at);
  const sphere = new Sphere();
  const kept = new Set(pair.map((key) => bodies.part(key)));
  const style = new Map<Part, Show>();
  for (const part of bodies.parts) {
    if (kept.has(part)) {
      style.set(part, "solid");
      continue;
    }
    bodies.whereIs(part, sphere);
    const before = sphere.center.sub(at).dot(towards) + sphere.radius;
    style.set(part, shown(part) === "solid" && before < 0.35 * spec.span_mm ? "solid" : "off");
  }
  return (part) => style.get(part) ?? "off";
}

/**
 * From where a touch is best seen: square to the way its bodies part, so that the depth lies in the picture, and as much from above
 * and from the builder's side as that leaves.
 */
export function closeLookDirection(parting: Vec3, liked: Vec3 = [-0.35, 0, 1]): Vec3 {
  const away = normalise(parting);
  const square = subtract(liked, scale(away, dot(liked, away)));
  if (length(square) > 0.2 * length(liked)) return normalise(square);
  return normalise(cross(away, [0, 1, 0]));
}
