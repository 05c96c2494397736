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
