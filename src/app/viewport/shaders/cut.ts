/** Vertex stage of what can be cut: the place in the car. */
export const CUT_VERTEX = /* glsl */ `
out vec3 vPlace;
`;

/**
 * A plane beyond which nothing is drawn. Of a closed body that is looked into from the side that is cut away the first
 * surface met is seen from within: the eye's ray crosses the plane inside the body, and the fill is drawn there, flat in
 * the plane with its depth. Where bodies overlap the one of the higher number is on top. Bodies that are not closed have no
 * fill.
 */
export const CUT_FRAGMENT = /* glsl */ `
in vec3 vPlace;
uniform mat4 projectionMatrix;
uniform vec2 uSize;
uniform vec4 uCut; // the car's frame: unit normal, offset
uniform bool uCutFaced; // the eye is on the side that is cut away
uniform vec3 uCutNormal; // the camera's frame, as are the others
uniform vec3 uCutAt;
uniform vec3 uCutRight;
uniform vec3 uCutUp;
uniform float uHatch_mm;
uniform vec3 uCutInk;
uniform bool uCapped;
bool isCutAway() { return dot(uCut.xyz, vPlace) > uCut.w; }
// from the pixel alone: to the last bit the same for all bodies that are cut there
vec3 placeInCut() {
  vec2 ndc = gl_FragCoord.xy / uSize * 2.0 - 1.0;
  vec3 ray = vec3((ndc + projectionMatrix[2].xy) / vec2(projectionMatrix[0][0], projectionMatrix[1][1]), -1.0);
  return ray * (dot(uCutNormal, uCutAt) / dot(uCutNormal, ray));
}
float depthInCut(vec3 seen, int body) {
  vec4 clip = projectionMatrix * vec4(seen, 1.0);
  return clip.z / clip.w * 0.5 + 0.5 - float(body) * 2e-7;
}
// neighbours are told apart by the way and the spacing of their lines
float hatch(vec3 seen, int body) {
  vec3 along = (body & 1) == 0 ? uCutRight + uCutUp : uCutRight - uCutUp;
  float spacing = uHatch_mm * ((body & 2) == 0 ? 1.0 : 1.5) * 1.414;
  float at = dot(seen - uCutAt, along) / spacing;
  float slope = max(fwidth(at), 1e-5);
  float off = abs(fract(at) - 0.5) / slope;
  return 1.0 - smoothstep(0.6, 1.4, off);
}
`;
