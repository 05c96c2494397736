/** Brings a picture of fewer pixels to the screen's. */
export const ENLARGE_FRAGMENT = /* glsl */ `
precision highp float;
in vec2 vUv;
out vec4 outColour;
uniform sampler2D tPicture;
uniform sampler2D tDepth;
uniform bool uDepthOut;
void main() {
  outColour = vec4(texture(tPicture, vUv).rgb, 1.0);
  gl_FragDepth = uDepthOut ? texture(tDepth, vUv).r : 0.0;
}
`;
