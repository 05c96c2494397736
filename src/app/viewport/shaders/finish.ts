/** Brings the samples to the pixels of the screen. With SMOOTH, stairs along strong contrasts are softened instead (one sample a pixel). */
export const FINISH_FRAGMENT = /* glsl */ `
precision highp float;
precision highp sampler2D;
in vec2 vUv;
out vec4 outColour;
uniform sampler2D tPicture;
uniform sampler2D tDepth;
uniform bool uDepthOut;
float luma(vec3 c) { return dot(c, vec3(0.299, 0.587, 0.114)); }
void main() {
#ifdef SMOOTH
  vec2 texel = 1.0 / vec2(textureSize(tPicture, 0));
  vec3 centre = texture(tPicture, vUv).rgb;
  float n = luma(texture(tPicture, vUv + vec2(0.0, texel.y)).rgb);
  float s = luma(texture(tPicture, vUv - vec2(0.0, texel.y)).rgb);
  float e = luma(texture(tPicture, vUv + vec2(texel.x, 0.0)).rgb);
  float w = luma(texture(tPicture, vUv - vec2(texel.x, 0.0)).rgb);
  float c = luma(centre);
  float range = max(max(n, s), max(max(e, w), c)) - min(min(n, s), min(min(e, w), c));
  vec3 colour = centre;
  if (range > 0.06) {
    // blur along the edge, square to the slope of lightness
    vec2 along = vec2(s - n, e - w);
    along = clamp(along / max(max(abs(along.x), abs(along.y)), 1e-3), -1.0, 1.0) * texel;
    colour = 0.5 * centre + 0.25 * (texture(tPicture, vUv + along * 0.75).rgb + texture(tPicture, vUv - along * 0.75).rgb);
  }
  outColour = vec4(colour, 1.0);
#else
  outColour = vec4(texture(tPicture, vUv).rgb, 1.0);
#endif
  gl_FragDepth = uDepthOut ? texture(tDepth, vUv).r : 0.0;
}
`;

/** Reads one place of the picture for the main thread: mark of solid and glass, and the depth at it in four bytes. */
export const PICK_FRAGMENT = /* glsl */ `
precision highp float;
precision highp sampler2D;
layout(location = 0) out vec4 outMark;
layout(location = 1) out vec4 outDepth;
in vec2 vUv;
uniform sampler2D tMark;
uniform sampler2D tDepth;
uniform vec2 uAt;
uniform vec2 uSpan;
void main() {
  vec2 uv = uAt + (vUv - 0.5) * uSpan;
  outMark = texture(tMark, uv);
  float d = clamp(texture(tDepth, uv).r, 0.0, 0.99999994);
  vec4 parts = fract(d * vec4(1.0, 255.0, 65025.0, 16581375.0));
  parts -= parts.yzww * vec4(1.0 / 255.0, 1.0 / 255.0, 1.0 / 255.0, 0.0);
  outDepth = parts;
}
`;
