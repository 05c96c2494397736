import { PACK_GLSL, POSITION_GLSL } from "./common.ts";

/**
 * Puts the picture together, one fragment a sample of the picture: floor and background, clay darkened by occlusion, what is
 * buried and shows through, glass, ink and the paint-pen line.
 * Ink: the share of twelve taps on a circle of half the line's width that lie on something else. Something else is another
 * mark (silhouette, full ink), a turned normal (crease, 62 %), or the same part off the tangent plane (a fold in front of
 * itself, 90 %).
 */
export const COMPOSITE_FRAGMENT = /* glsl */ `
precision highp float;
precision highp int;
precision highp sampler2D;
in vec2 vUv;
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
uniform bool uGlassOn;
uniform bool uBuriedOn;
uniform bool uOcclusionOn;
uniform bool uFloorOn;
uniform vec2 uSize;
uniform float uPixel;
uniform float uInkWidths[5];
uniform vec3 uInk;
uniform vec3 uOutline;
uniform bool uOutlineOwn;
uniform vec3 uSky;
uniform vec3 uSkyHigh;
uniform vec3 uFloorColour;
uniform float uShadow;
uniform vec3 uHeldColour;
uniform vec4 uHeldBox;
uniform vec3 uGlass;
uniform vec3 uGlassEdge;
uniform float uGlassFill;
uniform float uOcclusionAmount;
uniform mat4 uCameraWorld;
uniform vec4 uFloorArea;
uniform vec2 uFloorCentre;
uniform ivec2 uPair;
${PACK_GLSL}
${POSITION_GLSL}
const int BODY = 4095;
float inkWidth(int mark) { return uInkWidths[(mark >> 12) & 7]; }
vec2 tap(int i) { float a = float(i) * 0.52359878; return vec2(cos(a), sin(a)); }

float differs(vec2 uv, int mark, vec3 n, vec3 p, float radius_mm) {
  vec4 there = texture(tMark, uv);
  int other = unpackMark(there);
  if (other != mark) return 1.0;
  if (mark == 0) return 0.0;
  float crease = smoothstep(0.16, 0.4, 1.0 - dot(n, unpackNormal(there.rg))) * 0.62;
  float off = abs(dot(n, viewPosition(uv, texture(tDepth, uv).r) - p));
  return max(crease, smoothstep(3.0, 6.0, off / radius_mm) * 0.9);
}

float solidInk(int mark, vec4 texel, float depth) {
  float radius = max(inkWidth(mark) * uPixel * 0.5, 0.75);
  vec3 n = unpackNormal(texel.rg);
  vec3 p = viewPosition(vUv, depth);
  float radius_mm = radius * -p.z * 2.0 / (uProjection[1][1] * uSize.y);
  float sum = 0.0;
  for (int i = 0; i < 12; i += 3) sum += differs(vUv + tap(i) * radius / uSize, mark, n, p, radius_mm);
  if (sum == 0.0) return 0.0;
  for (int i = 0; i < 12; i++) if (i % 3 != 0) sum += differs(vUv + tap(i) * radius / uSize, mark, n, p, radius_mm);
  return min(sum / 5.0, 1.0);
}

float glassInk(vec4 texel) {
  int mark = unpackMark(texel);
  float radius = max(inkWidth(mark) * uPixel * 0.5, 0.75);
  vec3 n = unpackNormal(texel.rg);
  float sum = 0.0;
  for (int i = 0; i < 12; i++) {
    vec4 there = texture(tGlassMark, vUv + tap(i) * radius / uSize);
    if (unpackMark(there) != mark) sum += 1.0;
    else if (mark != 0) sum += smoothstep(0.16, 0.4, 1.0 - dot(n, unpackNormal(there.rg))) * 0.62;
    if (i == 3 && sum == 0.0) break;
  }
  return min(sum / 5.0, 1.0);
}

bool heldAt(vec2 uv, float near_mm) {
  if ((unpackMark(texture(tMark, uv)) & 32768) != 0 && viewDistance(texture(tDepth, uv).r) < near_mm + 4.0) return true;
  return uGlassOn && (unpackMark(texture(tGlassMark, uv)) & 32768) != 0;
}

/** 0 none, 1 paint, 2 the ink round the paint. Nothing is painted on a part that stands in front of what is held. */
int heldLine(float distance_mm) {
  vec2 pixel = vec2(uPixel) / uSize;
  for (int ring = 1; ring <= 2; ring++)
    for (int i = 0; i < 12; i++) if (heldAt(vUv + tap(i) * pixel * float(ring) * 2.0, distance_mm)) return 1;
  for (int i = 0; i < 12; i++) if (heldAt(vUv + tap(i) * pixel * 5.2, distance_mm)) return 2;
  return 0;
}

vec3 background() {
  vec3 colour = mix(uSky, uSkyHigh, smoothstep(0.05, 0.9, vUv.y));
  vec3 eye = uCameraWorld[3].xyz;
  vec3 ray = mat3(uCameraWorld) * viewPosition(vUv, 0.5);
  if (!uFloorOn || ray.z > -1e-4 || eye.z < 0.0) return colour;
  vec2 at = eye.xy + ray.xy * (eye.z / -ray.z);
  colour = mix(colour, uFloorColour, exp(-length(at - uFloorCentre) / 1600.0) * 0.85);
  vec2 uv = (at - uFloorArea.xy) / uFloorArea.zw;
  if (all(greaterThan(uv, vec2(0.0))) && all(lessThan(uv, vec2(1.0)))) colour *= 1.0 - uShadow * texture(tFloor, uv).r;
  return colour;
}

float occlusion(int mark) {
  vec2 size = vec2(textureSize(tOcclusion, 0));
  vec2 at = vUv * size - 0.5;
  vec2 corner = floor(at);
  vec2 f = at - corner;
  float sum = 0.0;
  float weight = 0.0;
  for (int i = 0; i < 4; i++) {
    vec2 o = vec2(float(i & 1), float(i >> 1));
    vec4 there = texture(tOcclusion, (corner + o + 0.5) / size);
    vec2 side = mix(1.0 - f, f, o);
    float k = side.x * side.y * (unpackMark(there) == mark ? 1.0 : 1e-4);
    sum += there.r * k;
    weight += k;
  }
  return sum / max(weight, 1e-6);
}

void main() {
  vec4 texel = texture(tMark, vUv);
  int mark = unpackMark(texel);
  float depth = texture(tDepth, vUv).r;
  float distance_mm = mark == 0 ? 1e9 : viewDistance(depth);
  vec3 colour;
  if (mark == 0) colour = background();
  else {
    vec4 clay = texture(tColour, vUv);
    colour = clay.rgb;
    if (uOcclusionOn) colour *= 1.0 - uOcclusionAmount * clay.a * smoothstep(0.02, 0.8, occlusion(mark));
  }
  float ink = solidInk(mark, texel, depth);
  vec3 inkColour = uInk;
  if (uOutlineOwn) {
    if (mark == 0) ink = 0.0;
    else {
      float reach = max(inkWidth(mark) * uPixel * 0.5, 0.75);
      for (int i = 0; i < 12; i += 3) if (unpackMark(texture(tMark, vUv + tap(i) * reach / uSize)) == 0) inkColour = uOutline;
    }
  }
  colour = mix(colour, inkColour, ink);
  if (uBuriedOn) {
    vec4 through = texture(tBuriedMark, vUv);
    int cover = unpackMark(through);
    bool shown = (cover & BODY) == BODY ? (mark & BODY) == uPair.x || (mark & BODY) == uPair.y : (cover & BODY) == (mark & BODY);
    if (cover != 0 && mark != 0 && shown) {
      colour = texture(tBuriedColour, vUv).rgb;
      ink = 0.0;
    }
  }
  if (uGlassOn) {
    vec4 glass = texture(tGlassMark, vUv);
    bool inFront = texture(tGlassDepth, vUv).r < depth;
    if (inFront) {
      if (unpackMark(glass) != 0) colour = mix(colour, uGlass, uGlassFill);
      colour = mix(colour, uGlassEdge, glassInk(glass) * 0.45);
    }
  }
  bool inBox = all(greaterThan(vUv, uHeldBox.xy)) && all(lessThan(vUv, uHeldBox.zw));
  if (inBox && (mark & 32768) == 0) {
    int line = heldLine(distance_mm);
    if (line == 1 && ink < 0.6) colour = uHeldColour;
    if (line == 2) colour = mix(colour, uInk, 0.85);
  }
  outColour = vec4(colour, 1.0);
}
`;
