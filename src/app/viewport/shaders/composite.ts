import { PACK_GLSL } from "./common.ts";

/** The ray through each corner of the picture, car axes, for the floor. */
export const COMPOSITE_VERTEX = /* glsl */ `
precision highp float;
in vec3 position;
out vec2 vUv;
out vec3 vRay;
uniform mat4 uProjection;
uniform mat4 uCameraWorld;
void main() {
  vUv = position.xy * 0.5 + 0.5;
  vec2 slope = (position.xy + uProjection[2].xy) / vec2(uProjection[0][0], uProjection[1][1]);
  vRay = mat3(uCameraWorld) * vec3(slope, -1.0);
  gl_Position = vec4(position.xy, 0.0, 1.0);
}
`;

/**
 * Puts the picture together, one fragment a pixel, from layers with several samples a pixel: floor and background, clay darkened
 * by occlusion, what is buried and shows through, glass, ink and the paint-pen line.
 * Ink: the share of a small disc of taps that lies on something else. Something else is another
 * mark (silhouette, full ink), a turned normal (crease, 62 %), or the same part off the tangent plane (a fold in front of
 * itself, 90 %).
 */
export const COMPOSITE_FRAGMENT = /* glsl */ `
precision highp float;
precision highp int;
precision highp sampler2D;
in vec2 vUv;
in vec3 vRay;
out vec4 outColour;
uniform sampler2D tColour;
uniform sampler2D tMark;
uniform sampler2D tDepth;
uniform sampler2D tGlassMark;
uniform sampler2D tGlassDepth;
uniform sampler2D tBuriedColour;
uniform sampler2D tBuriedMark;
uniform sampler2D tOcclusion;
uniform sampler2D tFloor;
uniform sampler2D tHeld;
uniform sampler2D tGhostMark;
uniform sampler2D tGhostDepth;
uniform sampler2D tSweptColour;
uniform sampler2D tSweptMark;
uniform sampler2D tSweptDepth;
uniform bool uGhostsOn;
uniform bool uSweptOn;
uniform bool uGlassOn;
uniform bool uBuriedOn;
uniform bool uOcclusionOn;
uniform bool uFloorOn;
uniform bool uDepthOut;
uniform vec2 uSize;
uniform float uPixel;
uniform float uSamplesPerPx;
uniform float uInkWidths[8];
uniform vec3 uInk;
uniform vec3 uOutline;
uniform bool uOutlineOwn;
uniform vec3 uSky;
uniform vec3 uSkyHigh;
uniform vec3 uFloorColour;
uniform float uShadow;
uniform vec3 uHeldColour;
uniform bool uHeldOn;
uniform vec3 uGlass;
uniform vec3 uGlassEdge;
uniform float uGlassFill;
uniform float uOcclusionAmount;
uniform mat4 uProjection;
uniform mat4 uCameraWorld;
uniform vec4 uFloorArea;
uniform vec2 uFloorCentre;
uniform int uPatched[16];
${PACK_GLSL}
const int BODY = 4095;
// three rings that fill a disc of radius 1 evenly; the outermost first, for it sees a line's edge first
const int TAP_COUNT = 22;
const int OUTER = 8;
const vec2 TAPS[22] = vec2[22](
  vec2(1.0, 0.0), vec2(0.707, 0.707), vec2(0.0, 1.0), vec2(-0.707, 0.707),
  vec2(-1.0, 0.0), vec2(-0.707, -0.707), vec2(0.0, -1.0), vec2(0.707, -0.707),
  vec2(0.646, 0.268), vec2(0.268, 0.646), vec2(-0.268, 0.646), vec2(-0.646, 0.268),
  vec2(-0.646, -0.268), vec2(-0.268, -0.646), vec2(0.268, -0.646), vec2(0.646, -0.268),
  vec2(0.36, 0.0), vec2(0.18, 0.312), vec2(-0.18, 0.312), vec2(-0.36, 0.0), vec2(-0.18, -0.312), vec2(0.18, -0.312));
ivec2 gLast;
vec2 gSamples;

ivec2 sampleAt(vec2 uv) { return clamp(ivec2(uv * gSamples), ivec2(0), gLast); }
float inkWidth(int mark) { return uInkWidths[(mark >> 12) & 7]; }
float viewDistance(float depth) { return uProjection[3][2] / (depth * 2.0 - 1.0 + uProjection[2][2]); }
vec3 viewPosition(vec2 uv, float depth) {
  float d = viewDistance(depth);
  return vec3((uv * 2.0 - 1.0 + uProjection[2].xy) * d / vec2(uProjection[0][0], uProjection[1][1]), -d);
}

float differs(vec2 uv, int mark, vec3 n, vec3 p, float reach_mm) {
  ivec2 at = sampleAt(uv);
  vec4 there = texelFetch(tMark, at, 0);
  if (unpackMark(there) != mark) return 1.0;
  if (mark == 0) return 0.0;
  float crease = smoothstep(0.16, 0.4, 1.0 - dot(n, unpackNormal(there.rg))) * 0.62;
  float off = abs(dot(n, viewPosition(uv, texelFetch(tDepth, at, 0).r) - p));
  return max(crease, smoothstep(3.0, 6.0, off / reach_mm) * 0.9);
}

/** Reach of the taps: half a line and half a pixel. */
float inkReach(int mark) { return inkWidth(mark) * uPixel * 0.5 + 0.5; }

/**
 * The line's cover of the pixel from the taps' sum. A straight edge at t of the reach leaves the share
 * f = (acos t − t·√(1 − t²)) / π ≈ (1 − t)^1.5 / 2 of a disc beyond it; the line covers what lies nearer than its half width.
 */
float cover(float sum, float strongest, float reach) {
  float f = sum / (float(TAP_COUNT) * strongest);
  return min(1.0, reach * pow(2.0 * f, 0.667)) * strongest;
}

float solidInk(int mark, vec4 texel, float depth) {
  float reach = inkReach(mark);
  vec2 stride = reach / uSize;
  vec3 n = unpackNormal(texel.rg);
  vec3 p = viewPosition(vUv, depth);
  float reach_mm = reach * -p.z * 2.0 / (uProjection[1][1] * uSize.y);
  float sum = 0.0;
  float strongest = 0.0;
  for (int i = 0; i < TAP_COUNT; i++) {
    float k = differs(vUv + TAPS[i] * stride, mark, n, p, reach_mm);
    sum += k;
    strongest = max(strongest, k);
    if (i == OUTER - 1 && sum == 0.0) return 0.0;
  }
  return strongest < 0.02 ? 0.0 : cover(sum, strongest, reach);
}

float layerInk(in sampler2D marks, vec4 texel) {
  int mark = unpackMark(texel);
  float reach = inkReach(mark);
  vec2 stride = reach / uSize;
  vec3 n = unpackNormal(texel.rg);
  float sum = 0.0;
  float strongest = 0.0;
  for (int i = 0; i < TAP_COUNT; i++) {
    vec4 there = texelFetch(marks, sampleAt(vUv + TAPS[i] * stride), 0);
    float k = 0.0;
    if (unpackMark(there) != mark) k = 1.0;
    else if (mark != 0) k = smoothstep(0.16, 0.4, 1.0 - dot(n, unpackNormal(there.rg))) * 0.62;
    sum += k;
    strongest = max(strongest, k);
    if (i == OUTER - 1 && sum == 0.0) return 0.0;
  }
  return strongest < 0.02 ? 0.0 : cover(sum, strongest, reach);
}

vec3 background() {
  vec3 colour = mix(uSky, uSkyHigh, smoothstep(0.05, 0.9, vUv.y));
  vec3 eye = uCameraWorld[3].xyz;
  if (!uFloorOn || vRay.z > -1e-4 || eye.z < 0.0) return colour;
  vec2 at = eye.xy + vRay.xy * (eye.z / -vRay.z);
  colour = mix(colour, uFloorColour, exp(-length(at - uFloorCentre) / 1600.0) * 0.85);
  vec2 uv = (at - uFloorArea.xy) / uFloorArea.zw;
  if (uv.x > 0.0 && uv.y > 0.0 && uv.x < 1.0 && uv.y < 1.0) colour *= 1.0 - uShadow * textureLod(tFloor, uv, 0.0).r;
  return colour;
}

/** Whether what is marked as buried in \`cover\` is seen where \`front\` is the foremost body. */
bool showsThrough(int cover, int front) {
  if (cover != BODY) return cover == front;
  for (int i = 0; i < 16; i++) if (uPatched[i] == front) return true;
  return false;
}

float occlusion(int mark) {
  ivec2 last = textureSize(tOcclusion, 0) - 1;
  vec2 at = vUv * vec2(last + 1) - 0.5;
  ivec2 corner = ivec2(floor(at));
  vec2 f = at - vec2(corner);
  float sum = 0.0;
  float weight = 0.0;
  for (int i = 0; i < 4; i++) {
    ivec2 o = ivec2(i & 1, i >> 1);
    vec4 there = texelFetch(tOcclusion, clamp(corner + o, ivec2(0), last), 0);
    vec2 side = mix(1.0 - f, f, vec2(o));
    float k = side.x * side.y * (unpackMark(there) == mark ? 1.0 : 1e-4) + 1e-6;
    sum += there.r * k;
    weight += k;
  }
  return sum / weight;
}

/** CSS px from what is held: the mean of four looks, for the distance of samples has stairs. */
float heldAway() {
  vec2 o = 0.6 * uPixel / uSize;
  float sum = 0.0;
  for (int i = 0; i < 4; i++) sum += textureLod(tHeld, vUv + vec2(i < 2 ? o.x : -o.x, i % 2 == 0 ? o.y : -o.y), 0.0).r;
  return sum * 0.25 * 24.0 / uSamplesPerPx;
}

void main() {
  gSamples = vec2(textureSize(tMark, 0));
  gLast = ivec2(gSamples) - 1;
  ivec2 own = sampleAt(vUv);
  vec4 texel = texelFetch(tMark, own, 0);
  int mark = unpackMark(texel);
  float depth = texelFetch(tDepth, own, 0).r;
  vec3 colour;
  bool state = false;
  if (mark == 0) colour = background();
  else {
    // the mean of the pixel's samples
    vec4 clay = textureLod(tColour, vUv, 0.0);
    colour = clay.rgb;
    state = clay.a < 0.5;
    if (uOcclusionOn) colour *= 1.0 - uOcclusionAmount * clay.a * smoothstep(0.0, 0.55, occlusion(mark));
  }
  float ink = solidInk(mark, texel, depth);
  vec3 inkColour = uInk;
  if (uOutlineOwn && ink > 0.0) {
    vec2 reach = inkReach(mark) / uSize;
    if (mark == 0) {
      inkColour = uOutline;
      ink *= 0.6;
    }
    else for (int i = 0; i < OUTER; i++) if (unpackMark(texelFetch(tMark, sampleAt(vUv + TAPS[i] * reach), 0)) == 0) inkColour = uOutline;
  }
  colour = mix(colour, inkColour, ink);
  if (uBuriedOn && mark != 0) {
    int cover = unpackMark(texelFetch(tBuriedMark, own, 0)) & BODY;
    if (cover != 0 && showsThrough(cover, mark & BODY)) {
      colour = textureLod(tBuriedColour, vUv, 0.0).rgb;
      state = true;
    }
  }
  if (uGlassOn && texelFetch(tGlassDepth, own, 0).r < depth) {
    vec4 glass = texelFetch(tGlassMark, own, 0);
    if (unpackMark(glass) != 0) colour = mix(colour, uGlass, uGlassFill);
    if (glass.a >= 0.5) colour = mix(colour, uHeldColour, 0.2);
    colour = mix(colour, uGlassEdge, layerInk(tGlassMark, glass) * 0.45);
  }
  if (uSweptOn) {
    // its room is seen through, stippled; behind a solid part only its outline is seen, faintly
    vec4 swept = texelFetch(tSweptMark, own, 0);
    bool before = texelFetch(tSweptDepth, own, 0).r < depth;
    if (before && unpackMark(swept) != 0) {
      colour = mix(colour, textureLod(tSweptColour, vUv, 0.0).rgb, 0.45);
      vec2 cell = mod(gl_FragCoord.xy / uPixel, 6.0) - 3.0;
      colour = mix(colour, uInk, (1.0 - smoothstep(0.7, 1.3, length(cell))) * 0.5);
    }
    colour = mix(colour, before ? uInk : uGlassEdge, layerInk(tSweptMark, swept) * (before ? 0.9 : 0.4));
  }
  if (uGhostsOn) {
    // outlines at other states; fainter where they lie within or behind solid parts
    vec4 ghost = texelFetch(tGhostMark, own, 0);
    bool before = texelFetch(tGhostDepth, own, 0).r < depth;
    if (before && unpackMark(ghost) != 0) colour = mix(colour, uGlass, uGlassFill);
    colour = mix(colour, uGlassEdge, layerInk(tGhostMark, ghost) * (before ? 0.8 : 0.3));
  }
  // what is held gives way to the touch, and to parts that stand in front of it
  float away = uHeldOn && !state && (mark & 32768) == 0 ? heldAway() : 99.0;
  if (away < 5.4) {
    vec4 nearest = texelFetch(tHeld, own, 0);
    float heldDepth = nearest.g + nearest.b / 255.0;
    bool before = viewDistance(depth) < viewDistance(min(heldDepth, 0.99999)) - 4.0;
    if (!before) {
      // within what is held as glass the distance is 0: no paint there
      float outside = smoothstep(0.1, 0.6, away);
      colour = mix(colour, uInk, outside * (1.0 - smoothstep(4.7, 5.4, away)));
      colour = mix(colour, uHeldColour, outside * (1.0 - max(smoothstep(3.9, 4.5, away), ink * step(away, 1.2))));
    }
  }
  // half a step of noise: wide soft gradients show no bands
  colour += (fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715)))) - 0.5) / 255.0;
  outColour = vec4(colour, 1.0);
  gl_FragDepth = uDepthOut ? depth : 0.0;
}
`;
