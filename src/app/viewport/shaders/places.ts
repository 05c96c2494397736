/** A place of a map as a point: how large it is hangs on its mark and on how far away it is. */
export const PLACES_VERTEX = `
precision highp float;
in vec3 position;
in float mark;
uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform float uHeight;
uniform float uPixel;
uniform float uStep_mm;
flat out int vMark;
flat out float vSize;

void main() {
  vMark = int(mark + 0.5);
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
  float room = float(max(vMark - 4, 0));
  float share = vMark >= 4 ? 0.62 + 0.08 * room : vMark == 1 ? 0.32 : 0.44;
  float px = uStep_mm * share * projectionMatrix[1][1] * uHeight * 0.5 / gl_Position.w;
  float least = vMark >= 4 ? 6.0 + room : vMark == 1 ? 2.5 : 3.5;
  float most = vMark >= 4 ? 22.0 : 12.0;
  vSize = clamp(px, least * uPixel, most * uPixel);
  gl_PointSize = vSize;
}
`;

/** Discs, crosses, diamonds and squares, edged with ink where they have room for it; the same marks as in the slices. */
export const PLACES_FRAGMENT = `
precision highp float;
flat in int vMark;
flat in float vSize;
uniform vec3 uColours[9];
uniform vec3 uInk;
uniform float uPixel;
uniform float uOpacity;
layout(location = 0) out vec4 outColour;

void main() {
  vec2 p = (gl_PointCoord - 0.5) * vSize;
  float half_px = vSize * 0.5;
  float line = max(1.0, 1.3 * uPixel);
  // px inside the mark's own edge; below 0: outside
  float inside;
  float fill = 1.0;
  if (vMark >= 4) inside = half_px - length(p);
  else if (vMark == 1) {
    float arm = min(abs(p.x - p.y), abs(p.x + p.y)) * 0.7071;
    inside = min(line * 0.75 - arm, half_px - max(abs(p.x), abs(p.y)));
  } else {
    float rim = vMark == 2 ? (half_px - abs(p.x) - abs(p.y)) * 0.7071 : half_px * 0.7 - max(abs(p.x), abs(p.y));
    inside = rim;
    // hollow, its rim edged on both sides
    fill = 1.0 - smoothstep(line * 2.6, line * 2.6 + 1.0, rim);
  }
  float cover = clamp(inside + 0.5, 0.0, 1.0) * fill;
  if (cover < 0.05) discard;
  vec3 colour = uColours[vMark];
  bool hasEdge = vMark != 1 && vSize > 6.5 * uPixel;
  if (hasEdge) {
    float edge = 1.0 - smoothstep(line * 0.6, line * 0.6 + 1.0, inside);
    if (vMark < 4) edge = max(edge, smoothstep(line * 1.9, line * 1.9 + 0.8, inside));
    colour = mix(colour, uInk, edge);
  }
  // room is seen through parts more clearly than what refuses it
  float opacity = vMark >= 4 ? mix(uOpacity, 1.0, 0.6) : uOpacity;
  outColour = vec4(colour, cover * opacity);
}
`;
