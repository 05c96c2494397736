import { PACK_GLSL } from "./common.ts";

const REACH_GLSL = /* glsl */ `
const float FAR = 24.0; // samples; a distance of 1 in the red byte
`;

/**
 * How far each sample near the held part is from it, in two runs, along and across (Euclidean, exact up to FAR). Red: distance in
 * samples over FAR; green and blue: depth of what is held there. With ACROSS the second run.
 */
export const HELD_FRAGMENT = /* glsl */ `
precision highp float;
precision highp int;
precision highp sampler2D;
out vec4 outDistance;
uniform sampler2D tMark;
uniform sampler2D tDepth;
uniform sampler2D tGlassMark;
uniform sampler2D tGlassDepth;
uniform sampler2D tAlong;
uniform bool uGlassOn;
uniform int uReach;
${PACK_GLSL}
${REACH_GLSL}
vec2 depthBytes(float depth) { float v = depth * 255.0; return vec2(floor(v) / 255.0, fract(v)); }
#ifdef ACROSS
void main() {
  ivec2 at = ivec2(gl_FragCoord.xy);
  ivec2 last = textureSize(tAlong, 0) - 1;
  vec4 best = vec4(1.0, 0.0, 0.0, 1.0);
  float least = FAR * FAR;
  for (int k = -uReach; k <= uReach; k++) {
    vec4 there = texelFetch(tAlong, clamp(at + ivec2(0, k), ivec2(0), last), 0);
    float across = there.r * FAR;
    float d = across * across + float(k * k);
    if (there.r < 0.999 && d < least) { least = d; best = there; }
  }
  outDistance = vec4(sqrt(least) / FAR, best.gb, 1.0);
}
#else
bool heldAt(ivec2 at, out float depth) {
  depth = texelFetch(tDepth, at, 0).r;
  if (texelFetch(tMark, at, 0).a >= 0.5) return true;
  if (!uGlassOn || texelFetch(tGlassMark, at, 0).a < 0.5) return false;
  float glass = texelFetch(tGlassDepth, at, 0).r;
  bool seen = glass < depth;
  depth = glass;
  return seen;
}
void main() {
  ivec2 at = ivec2(gl_FragCoord.xy);
  ivec2 last = textureSize(tMark, 0) - 1;
  outDistance = vec4(1.0, 0.0, 0.0, 1.0);
  float depth;
  for (int k = 0; k <= uReach; k++) {
    if (heldAt(clamp(at + ivec2(k, 0), ivec2(0), last), depth) || heldAt(clamp(at - ivec2(k, 0), ivec2(0), last), depth)) {
      outDistance = vec4(float(k) / FAR, depthBytes(depth), 1.0);
      return;
    }
  }
}
#endif
`;
