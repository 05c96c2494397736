import { PACK_GLSL, POSITION_GLSL } from "./common.ts";

/**
 * Soft occlusion from the depth buffer: the share of a cosine-weighted hemisphere of short rays whose ends lie behind
 * something (after Filion and McNaughton, "StarCraft II: Effects and Techniques", SIGGRAPH 2008 course). Out: occlusion in
 * red, the mark in blue and alpha, so that later steps never mix two parts. SAMPLES is a define.
 */
export const OCCLUSION_FRAGMENT = /* glsl */ `
precision highp float;
precision highp int;
precision highp sampler2D;
in vec2 vUv;
out vec4 outOcclusion;
uniform sampler2D tMark;
uniform sampler2D tDepth;
uniform float uReach;
${PACK_GLSL}
${POSITION_GLSL}
float grain(vec2 p) { return fract(52.9829189 * fract(dot(p, vec2(0.06711056, 0.00583715)))); }
void main() {
  vec4 texel = texture(tMark, vUv);
  if (unpackMark(texel) == 0) { outOcclusion = vec4(0.0); return; }
  vec3 n = unpackNormal(texel.rg);
  vec3 p = viewPosition(vUv, texture(tDepth, vUv).r);
  vec3 side = normalize(abs(n.z) < 0.9 ? cross(n, vec3(0.0, 0.0, 1.0)) : cross(n, vec3(1.0, 0.0, 0.0)));
  vec3 other = cross(n, side);
  float turn = grain(gl_FragCoord.xy) * 6.2831853;
  float jitter = grain(gl_FragCoord.yx + 17.0);
  float sum = 0.0;
  for (int i = 0; i < SAMPLES; i++) {
    float share = (float(i) + 0.5) / float(SAMPLES);
    float a = turn + float(i) * 2.3999632;
    vec3 direction = (side * cos(a) + other * sin(a)) * sqrt(share) + n * sqrt(1.0 - share);
    // near, middle and far rays in turn: fillets, gaps between parts, bays
    float reach = (i % 3 == 0 ? 24.0 : i % 3 == 1 ? 64.0 : 125.0) * (0.35 + 0.65 * fract(jitter + float(i) * 0.618));
    reach *= uReach;
    vec3 q = p + n * (0.6 + 0.012 * reach) + direction * reach;
    vec4 clip = uProjection * vec4(q, 1.0);
    vec2 at = clip.xy / clip.w * 0.5 + 0.5;
    float behind = -q.z - viewDistance(texture(tDepth, at).r);
    sum += step(0.015 * reach, behind) * smoothstep(reach * 2.2, reach * 0.4, behind);
  }
  outOcclusion = vec4(sum / float(SAMPLES), 0.0, texel.ba);
}
`;

/** One direction of a Gaussian blur that stays within a part and off its creases. */
export const OCCLUSION_BLUR_FRAGMENT = /* glsl */ `
precision highp float;
precision highp int;
in vec2 vUv;
out vec4 outOcclusion;
uniform sampler2D tOcclusion;
uniform sampler2D tMark;
uniform vec2 uStep;
${PACK_GLSL}
void main() {
  vec4 centre = texture(tOcclusion, vUv);
  if (unpackMark(centre) == 0) { outOcclusion = centre; return; }
  vec3 n = unpackNormal(texture(tMark, vUv).rg);
  float sum = 0.0;
  float weight = 0.0;
  for (int i = -4; i <= 4; i++) {
    vec2 uv = vUv + uStep * float(i);
    vec4 there = texture(tOcclusion, uv);
    if (unpackMark(there) != unpackMark(centre)) continue;
    float k = exp(-float(i * i) / 9.0) * (pow(max(0.0, dot(n, unpackNormal(texture(tMark, uv).rg))), 4.0) + 0.001);
    sum += there.r * k;
    weight += k;
  }
  outOcclusion = vec4(sum / weight, 0.0, centre.ba);
}
`;
