import type { PieceKind } from "../../scene/parts/pieceFields.ts";

/** What the pieces of a part are called. */
export const PIECE_NAMES: Readonly<Record<PieceKind, string>> = {
  cylinder: "Cylinder",
  capsule: "Rod with round ends",
  cone: "Cone",
  sphere: "Ball",
  box: "Box",
  torus: "Ring",
  tube: "Bent tube",
  prism: "Plate",
  hull: "Cast lump",
};

export const PIECE_ABOUT: Readonly<Record<PieceKind, string>> = {
  cylinder: "Flat ends: bolts, bushes, discs, drums.",
  capsule: "A straight rod between two points.",
  cone: "Round, thicker at one end.",
  sphere: "Joints and knobs.",
  box: "Square to the car unless turned.",
  torus: "A round bar bent to a ring, its axis across the car unless turned.",
  tube: "A round tube along the corners of its middle line.",
  prism: "A flat outline of some thickness: lugs, brackets, gussets, nuts.",
  hull: "A skin stretched over balls and corners: castings, pans, covers.",
};

export const WORDS = {
  open: "Build from pieces",
  newTitle: "A part from pieces",
  lead: "Simple pieces in car coordinates: forward of the axle, left of the centre plane, up from the ground. Rows can be pasted from a table.",
  name: "Name",
  role: "Role, which clearance rules may name",
  ridesOn: "Rides on",
  both: "Its image on the right too",
  add: "Add a piece",
  none: "No piece yet: add the first one.",
  pieces: "Pieces",
  takeOut: "Take this piece out",
  leave: "Leave it",
  keep: "Keep the part",
  wrong: "Some pieces are not complete: they are marked.",
  menu: "Draw from pieces…",
} as const;

export function pieceTitle(number: number, kind: PieceKind): string {
  return `${number} ${PIECE_NAMES[kind]}`;
}

export function editTitle(name: string): string {
  return `${name}, piece by piece`;
}

export function addStep(id: string): string {
  return `add ${id}`;
}

export function drawStep(name: string): string {
  return `${name} drawn from pieces`;
}
