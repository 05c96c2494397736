/**
 * The mark buffer holds, in four bytes, what the ink needs to know of a pixel: the normal in the camera's frame
 * (octahedral, two bytes) and the mark (two bytes: bit 15 held, bits 12–14 group number, bits 0–11 body number; 0 is
 * the background). Octahedral mapping: Cigolle et al., "A Survey of Efficient Representations for Independent Unit
 * Vectors", Journal of Computer Graphics Techniques 3(2), 2014.
 */
export const PACK_GLSL = /* glsl */ `
vec2 packNormal(vec3 n) {
  vec2 p = n.xy / (abs(n.x) + abs(n.y) + abs(n.z));
  if (n.z < 0.0) p = (1.0 - abs(p.yx)) * vec2(p.x >= 0.0 ? 1.0 : -1.0, p.y >= 0.0 ? 1.0 : -1.0);
  return p * 0.5 + 0.5;
}
vec3 unpackNormal(vec2 e) {
  vec2 p = e * 2.0 - 1.0;
  vec3 n = vec3(p, 1.0 - abs(p.x) - abs(p.y));
  float fold = max(-n.z, 0.0);
  n.x += n.x >= 0.0 ? -fold : fold;
  n.y += n.y >= 0.0 ? -fold : fold;
  return normalize(n);
}
vec2 packMark(int mark) {
  return vec2(float(mark & 255), float((mark >> 8) & 255)) / 255.0;
}
int unpackMark(vec4 texel) {
  return int(texel.b * 255.0 + 0.5) | (int(texel.a * 255.0 + 0.5) << 8);
}
`;

/** Depth to position, in the camera's frame; `uProjection` may be off centre. */
export const POSITION_GLSL = /* glsl */ `
uniform mat4 uProjection;
float viewDistance(float depth) {
  return uProjection[3][2] / (depth * 2.0 - 1.0 + uProjection[2][2]);
}
vec3 viewPosition(vec2 uv, float depth) {
  float d = viewDistance(depth);
  vec2 ndc = uv * 2.0 - 1.0;
  return vec3((ndc.x + uProjection[2][0]) * d / uProjection[0][0], (ndc.y + uProjection[2][1]) * d / uProjection[1][1], -d);
}
`;

/** A triangle that covers the target. */
export const SCREEN_VERTEX = /* glsl */ `
precision highp float;
in vec3 position;
out vec2 vUv;
void main() {
  vUv = position.xy * 0.5 + 0.5;
  gl_Position = vec4(position.xy, 0.0, 1.0);
}
`;
