import { PACK_GLSL } from "./common.ts";
import { CUT_FRAGMENT, CUT_VERTEX } from "./cut.ts";

/** Helix of a coil spring from its parameters: `position` holds (share of the wire's length, cos φ, sin φ of its section). */
const COIL_GLSL = /* glsl */ `
uniform vec4 uCoil; // length, mean radius, wire radius, turns; mm
void coil(vec3 at, out vec3 p, out vec3 n) {
  float turns = uCoil.w;
  float closed = 0.8 / turns;
  float s = at.x;
  float solidRise = 2.0 * uCoil.z * turns;
  float rest = uCoil.x - 2.0 * uCoil.z;
  // end turns lie against each other, the turns between share what is left
  float endRise = min(closed * solidRise, 0.25 * rest);
  float midSlope = (rest - 2.0 * endRise) / (1.0 - 2.0 * closed);
  float height;
  float slope;
  if (s < closed) { height = endRise * s / closed; slope = endRise / closed; }
  else if (s > 1.0 - closed) { height = rest - endRise * (1.0 - s) / closed; slope = endRise / closed; }
  else { height = endRise + (s - closed) * midSlope; slope = midSlope; }
  float a = 6.2831853 * turns * s;
  vec3 outward = vec3(cos(a), sin(a), 0.0);
  vec3 tangent = normalize(vec3(-sin(a) * 6.2831853 * turns * uCoil.y, cos(a) * 6.2831853 * turns * uCoil.y, slope));
  vec3 side = cross(tangent, outward);
  n = at.y * outward + at.z * side;
  p = outward * uCoil.y + vec3(0.0, 0.0, height + uCoil.z) + n * uCoil.z;
}
`;

/** Vertex stage of parts, patches and floor shadow. Defines: COIL (helix), PATCH (clearance, lifted off its part), CUT (cut.ts). */
export const SURFACE_VERTEX = /* glsl */ `
precision highp float;
in vec3 position;
#ifndef COIL
in vec3 normal;
#endif
#ifdef PATCH
in float clearance;
out float vClearance;
uniform float uRequired_mm;
#endif
uniform mat4 modelMatrix;
uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform float uLift_mm;
out vec3 vNormal;
out vec3 vUp;
out float vHeight;
#ifdef CUT
${CUT_VERTEX}
#endif
#ifdef COIL
${COIL_GLSL}
#endif
void main() {
#ifdef COIL
  vec3 p;
  vec3 n;
  coil(position, p, n);
#else
  vec3 p = position;
  vec3 n = normal;
#endif
  vec4 seen = modelViewMatrix * vec4(p, 1.0);
  vNormal = mat3(modelViewMatrix) * n;
  vUp = mat3(modelMatrix) * n;
  vHeight = (modelMatrix * vec4(p, 1.0)).z;
#ifdef CUT
  vPlace = (modelMatrix * vec4(p, 1.0)).xyz;
#endif
#ifdef PATCH
  vClearance = clearance;
  // where two patches lie on one part, the nearer touch is on top
  float lift_mm = uLift_mm * (1.0 + 0.4 * clamp(1.0 - clearance / uRequired_mm, 0.0, 2.0));
  seen.xyz *= 1.0 - lift_mm / length(seen.xyz);
#endif
  gl_Position = projectionMatrix * seen;
}
`;

/**
 * Matte clay: half-Lambert key light fixed to the camera (as in Mitchell, McTaggart, Green, "Shading in Valve's Source
 * Engine", SIGGRAPH 2006 course), light from above fixed to the car. Attachment 0: colour, and in alpha how much soft
 * occlusion may darken it; attachment 1: normal and mark.
 */
export const SURFACE_FRAGMENT = /* glsl */ `
precision highp float;
precision highp int;
in vec3 vNormal;
in vec3 vUp;
layout(location = 0) out vec4 outColour;
layout(location = 1) out vec4 outMark;
uniform vec3 uTones[5];
uniform vec3 uHeldColour;
uniform float uShine;
uniform int uMark;
uniform int uTone;
uniform float uShade;
#ifdef PATCH
in float vClearance;
uniform float uRequired_mm;
uniform float uPixel;
uniform vec2 uAnchor;
uniform vec3 uClash;
uniform vec3 uClashDeep;
uniform vec3 uTight;
uniform vec3 uTightFar;
uniform vec3 uDot;
uniform vec3 uInk;
uniform int uBuried;
uniform int uThrough;
#endif
${PACK_GLSL}
#ifdef CUT
${CUT_FRAGMENT}
#endif
float light(vec3 n, vec3 up) {
  float key = 0.5 + 0.5 * dot(n, normalize(vec3(-0.42, 0.72, 0.62)));
  float sky = 0.5 + 0.5 * up.z;
  float edge = 0.5 + 0.5 * dot(n, normalize(vec3(0.8, -0.1, 0.35)));
  return 0.4 + 0.52 * key * key + 0.17 * sky + 0.05 * edge;
}
#ifdef PATCH
vec3 patchColour(float k) {
  float c = vClearance;
  vec2 at = (gl_FragCoord.xy - uAnchor) / uPixel;
  float slope = max(fwidth(c), 1e-4);
  vec3 colour;
  if (c >= 0.0) {
    float t = clamp(c / uRequired_mm, 0.0, 1.0);
    colour = mix(uTight, uTightFar, t) * (0.75 + 0.3 * k);
    vec2 cell = mod(at, 6.0) - 3.0;
    float dotted = 1.0 - smoothstep(1.05, 1.5, length(cell));
    colour = mix(colour, uDot, dotted * (0.75 - 0.45 * t));
    colour = mix(colour, uTight * 0.8, 1.0 - smoothstep(0.8, 1.8, (uRequired_mm - c) / slope / uPixel));
  } else {
    float deep = clamp(-c / 9.0, 0.0, 1.0);
    colour = mix(uClash, uClashDeep, deep * 0.8) * (0.8 + 0.25 * k);
    float stripe = abs(mod(at.x + at.y, 8.0) - 4.0) * 0.707;
    colour = mix(colour, uInk, (1.0 - smoothstep(0.6, 1.2, stripe)) * 0.5);
  }
  return colour;
}
#endif
void main() {
  vec3 n = normalize(vNormal);
  if (!gl_FrontFacing) n = -n;
  float k = light(n, normalize(vUp));
#ifdef CUT
  if (isCutAway()) discard;
#ifndef PATCH
  gl_FragDepth = gl_FragCoord.z;
  if (!gl_FrontFacing && uCapped) {
    if (!uCutFaced) discard;
    vec3 place = placeInCut();
    vec3 fill = uTones[uTone] * uShade;
    if ((uMark & 32768) != 0) fill = mix(fill, uHeldColour, 0.2);
    outColour = vec4(mix(fill, uCutInk, 0.6 * hatch(place, uMark & 4095)), 0.2);
    outMark = vec4(packNormal(uCutNormal), packMark(uMark));
    gl_FragDepth = depthInCut(place, uMark & 4095);
    return;
  }
#endif
#endif
#ifdef PATCH
  if (uBuried == 1 && vClearance >= 0.0) discard;
  outColour = vec4(patchColour(k), 0.25);
  outMark = vec4(packNormal(n), packMark(uBuried == 1 ? uThrough : uMark));
#else
  vec3 colour = uTones[uTone] * uShade;
  if ((uMark & 32768) != 0) colour = mix(colour, uHeldColour, 0.2);
  outColour = vec4(colour * mix(1.0, k, uShine), 1.0);
  outMark = vec4(packNormal(n), packMark(uMark));
#endif
}
`;

/** Ribbon along a polyline, `uWidth` wide on the screen: instances run from `start` to `end` (car coordinates, mm). */
export const CURVE_VERTEX = /* glsl */ `
precision highp float;
in vec3 position;
in vec3 start;
in vec3 end;
uniform mat4 viewMatrix;
uniform mat4 projectionMatrix;
uniform vec2 uSize;
uniform float uWidth;
uniform float uLift_mm;
#ifdef CUT
out vec3 vPlace;
#endif
vec4 lifted(vec3 p) {
  vec4 seen = viewMatrix * vec4(p, 1.0);
  seen.xyz *= 1.0 - uLift_mm / length(seen.xyz);
  return projectionMatrix * seen;
}
void main() {
  vec4 a = lifted(start);
  vec4 b = lifted(end);
  vec2 along = (b.xy / b.w - a.xy / a.w) * uSize;
  along = length(along) > 1e-6 ? normalize(along) : vec2(1.0, 0.0);
  vec4 p = position.x < 0.5 ? a : b;
#ifdef CUT
  vPlace = position.x < 0.5 ? start : end;
#endif
  // half a width beyond both ends closes the joints between segments
  vec2 offset = (vec2(-along.y, along.x) * position.y + along * (position.x * 2.0 - 1.0)) * uWidth;
  p.xy += offset / uSize * p.w;
  gl_Position = p;
}
`;

export const CURVE_FRAGMENT = /* glsl */ `
precision highp float;
precision highp int;
layout(location = 0) out vec4 outColour;
layout(location = 1) out vec4 outMark;
uniform vec3 uInk;
uniform int uMark;
#ifdef CUT
in vec3 vPlace;
uniform vec4 uCut;
#endif
${PACK_GLSL}
void main() {
#ifdef CUT
  if (dot(uCut.xyz, vPlace) > uCut.w) discard;
#endif
  outColour = vec4(uInk, 0.0);
  outMark = vec4(0.5, 0.5, packMark(uMark));
}
`;
