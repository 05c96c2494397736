/** How dark a part makes the floor below it: the nearer, the darker. */
export const FLOOR_SHADE_FRAGMENT = /* glsl */ `
precision highp float;
in float vHeight;
layout(location = 0) out vec4 outShade;
void main() {
  outShade = vec4(exp(-max(vHeight, 0.0) / 240.0), 0.0, 0.0, 1.0);
}
`;

export const FLOOR_BLUR_FRAGMENT = /* glsl */ `
precision highp float;
in vec2 vUv;
out vec4 outShade;
uniform sampler2D tShade;
uniform vec2 uStep;
void main() {
  float sum = 0.0;
  float weight = 0.0;
  for (int i = -9; i <= 9; i++) {
    float k = exp(-float(i * i) / 30.0);
    sum += texture(tShade, vUv + uStep * float(i)).r * k;
    weight += k;
  }
  outShade = vec4(sum / weight, 0.0, 0.0, 1.0);
}
`;
