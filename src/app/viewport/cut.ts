import { Matrix3, type PerspectiveCamera, Vector3, Vector4 } from "three";
import { cross, dot, squareTo, type Vec3 } from "../../maths/vec3.ts";

/** A plane of the car: what lies on the side that `normal` (a unit vector) points to is cut away. Car coordinates, mm. */
export interface Cut {
  readonly at: Vec3;
  readonly normal: Vec3;
}

type Uniform<T> = { value: T };

export interface CutUniforms {
  readonly uCut: Uniform<Vector4>;
  readonly uCutFaced: Uniform<boolean>;
  readonly uCutNormal: Uniform<Vector3>;
  readonly uCutAt: Uniform<Vector3>;
  readonly uCutRight: Uniform<Vector3>;
  readonly uCutUp: Uniform<Vector3>;
  readonly uHatch_mm: Uniform<number>;
  readonly uCutInk: Uniform<number[]>;
}

export function cutUniforms(): CutUniforms {
  return {
    uCut: { value: new Vector4(0, 0, 1, NOWHERE) },
    uCutFaced: { value: false },
    uCutNormal: { value: new Vector3(0, 0, 1) },
    uCutAt: { value: new Vector3() },
    uCutRight: { value: new Vector3() },
    uCutUp: { value: new Vector3() },
    uHatch_mm: { value: 10 },
    uCutInk: { value: [0, 0, 0] },
  };
}

/** An offset that no part of any car reaches. */
const NOWHERE = 1e9;
/** Distance of hatch lines, CSS px, before it is rounded to one of a few sizes on the car. */
const HATCH_PX = 9;

/** Sets the plane for one picture; null: nothing is cut away in it. `mmPerPx` where the plane's own point lies. */
export function applyCut(u: CutUniforms, cut: Cut | null, camera: PerspectiveCamera, mmPerPx: number): void {
  if (cut === null) {
    u.uCut.value.set(0, 0, 1, NOWHERE);
    u.uCutFaced.value = false;
    return;
  }
  const { at, normal } = cut;
  const right = Math.abs(normal[2]) > 0.9 ? squareTo(normal) : cross([0, 0, 1], normal);
  u.uCut.value.set(...normal, dot(normal, at));
  const eye = new Vector3().setFromMatrixPosition(camera.matrixWorld);
  u.uCutFaced.value = dot(normal, [eye.x, eye.y, eye.z]) > dot(normal, at);
  const turn = new Matrix3().setFromMatrix4(camera.matrixWorldInverse);
  u.uCutNormal.value.set(...normal).applyMatrix3(turn);
  u.uCutRight.value
    .set(...right)
    .normalize()
    .applyMatrix3(turn);
  u.uCutUp.value.crossVectors(u.uCutNormal.value, u.uCutRight.value);
  u.uCutAt.value.set(...at).applyMatrix4(camera.matrixWorldInverse);
  // in doublings: lines lie still on the part while the eye comes nearer
  u.uHatch_mm.value = 2 ** Math.round(Math.log2(HATCH_PX * mmPerPx));
}
