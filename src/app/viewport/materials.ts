import { DoubleSide, FrontSide, GLSL3, NoBlending, RawShaderMaterial, Vector2 } from "three";
import type { Theme } from "../store/state.ts";
import { type CutUniforms, cutUniforms } from "./cut.ts";
import { PALETTES } from "./palette.ts";
import { CURVE_FRAGMENT, CURVE_VERTEX, SURFACE_FRAGMENT, SURFACE_VERTEX } from "./shaders/surface.ts";

type Uniform<T> = { value: T };

/** Uniforms that every material of the car shares; changing a value changes them all. */
export interface SharedUniforms extends CutUniforms {
  readonly uTones: Uniform<number[]>;
  readonly uHeldColour: Uniform<number[]>;
  readonly uShine: Uniform<number>;
  readonly uPixel: Uniform<number>;
  readonly uSize: Uniform<Vector2>;
  readonly uClash: Uniform<number[]>;
  readonly uClashDeep: Uniform<number[]>;
  readonly uTight: Uniform<number[]>;
  readonly uTightFar: Uniform<number[]>;
  readonly uDot: Uniform<number[]>;
  readonly uInk: Uniform<number[]>;
}

export function sharedUniforms(): SharedUniforms {
  return {
    ...cutUniforms(),
    uTones: { value: new Array<number>(15).fill(0) },
    uHeldColour: { value: [0, 0, 0] },
    uShine: { value: 1 },
    uPixel: { value: 1 },
    uSize: { value: new Vector2(1, 1) },
    uClash: { value: [0, 0, 0] },
    uClashDeep: { value: [0, 0, 0] },
    uTight: { value: [0, 0, 0] },
    uTightFar: { value: [0, 0, 0] },
    uDot: { value: [0, 0, 0] },
    uInk: { value: [0, 0, 0] },
  };
}

export function applyTheme(shared: SharedUniforms, theme: Theme): void {
  const palette = PALETTES[theme];
  shared.uTones.value = palette.tones.flat();
  shared.uHeldColour.value = [...palette.held];
  shared.uShine.value = palette.shine;
  shared.uClash.value = [...palette.clash];
  shared.uClashDeep.value = [...palette.clashDeep];
  shared.uTight.value = [...palette.tight];
  shared.uTightFar.value = [...palette.tightFar];
  shared.uDot.value = [...palette.dot];
  shared.uInk.value = [...palette.ink];
  shared.uCutInk.value = [...palette.ink];
}

/** Own uniforms of one part. `mark` is the packed mark of shaders/common.ts, `tone` an index of TONES. */
export interface PartUniforms {
  readonly uMark: Uniform<number>;
  readonly uTone: Uniform<number>;
  readonly uShade: Uniform<number>;
  /** Whether the body is closed: where it is cut it shows a fill. */
  readonly uCapped: Uniform<boolean>;
}

/** Makes the material heed the cut, or not: a program of its own, so that no picture without a cut pays for it. */
export function heedCut(material: RawShaderMaterial, isCut: boolean): void {
  if ("CUT" in material.defines === isCut) return;
  if (isCut) material.defines.CUT = 1;
  else delete material.defines.CUT;
  // what is looked into shows its far side: that is where the fill is
  const isSurface = "uCapped" in material.uniforms && !("PATCH" in material.defines);
  if (isSurface) material.side = isCut ? DoubleSide : FrontSide;
  material.needsUpdate = true;
}

export type PartMaterial = RawShaderMaterial & { uniforms: PartUniforms };
export type CoilMaterial = RawShaderMaterial & { uniforms: PartUniforms & { uCoil: Uniform<number[]> } };

function base(name: string, uniforms: Record<string, Uniform<unknown>>, defines: Record<string, number>) {
  return new RawShaderMaterial({
    name,
    glslVersion: GLSL3,
    vertexShader: SURFACE_VERTEX,
    fragmentShader: SURFACE_FRAGMENT,
    uniforms,
    defines,
    blending: NoBlending,
  });
}

export function partMaterial(shared: SharedUniforms, tone: number, shade: number, isClosed: boolean): PartMaterial {
  const own = {
    uMark: { value: 0 },
    uTone: { value: tone },
    uShade: { value: shade },
    uLift_mm: { value: 0 },
    uCapped: { value: isClosed },
  };
  return base("part", { ...shared, ...own }, {}) as unknown as PartMaterial;
}

export function coilMaterial(shared: SharedUniforms, tone: number, shade: number, coil: number[]): CoilMaterial {
  const own = {
    uMark: { value: 0 },
    uTone: { value: tone },
    uShade: { value: shade },
    uLift_mm: { value: 0 },
    uCapped: { value: true },
    uCoil: { value: coil },
  };
  return base("coil", { ...shared, ...own }, { COIL: 1 }) as unknown as CoilMaterial;
}

export interface PatchUniforms extends PartUniforms {
  readonly uRequired_mm: Uniform<number>;
  readonly uAnchor: Uniform<Vector2>;
  readonly uBuried: Uniform<number>;
  readonly uThrough: Uniform<number>;
  readonly uLift_mm: Uniform<number>;
}
export type PatchMaterial = RawShaderMaterial & { uniforms: PatchUniforms };

/** A patch rides this far in front of the surface it lies on, so that neither flickers through the other. */
const LIFT_MM = 0.3;

export function patchMaterial(shared: SharedUniforms): PatchMaterial {
  const own = {
    uMark: { value: 0 },
    uTone: { value: 0 },
    uShade: { value: 1 },
    uRequired_mm: { value: 1 },
    uAnchor: { value: new Vector2() },
    uCapped: { value: false },
    uBuried: { value: 0 },
    uThrough: { value: 0 },
    uLift_mm: { value: LIFT_MM },
  };
  return base("patch", { ...shared, ...own }, { PATCH: 1 }) as unknown as PatchMaterial;
}

export interface CurveUniforms {
  readonly uMark: Uniform<number>;
  readonly uWidth: Uniform<number>;
}
export type CurveMaterial = RawShaderMaterial & { uniforms: CurveUniforms };

export function curveMaterial(shared: SharedUniforms): CurveMaterial {
  return new RawShaderMaterial({
    name: "curve",
    glslVersion: GLSL3,
    vertexShader: CURVE_VERTEX,
    fragmentShader: CURVE_FRAGMENT,
    uniforms: { ...shared, uMark: { value: 0 }, uWidth: { value: 2 }, uLift_mm: { value: LIFT_MM * 2.5 } },
    blending: NoBlending,
    side: DoubleSide,
  }) as unknown as CurveMaterial;
}
