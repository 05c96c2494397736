import type { Vec3 } from "../../src/maths/vec3.ts";
import { CONSTRAINTS, type MemberDocument, type PointDocument, type ShapeDocument } from "../../src/scene/document.ts";
import type { Dice } from "./dice.ts";

type Kind = MemberDocument["kind"];

/** Every choice of member kinds that takes five of the hub's six freedoms. */
export const MIXES: readonly (readonly Kind[])[] = mixesOf(Object.keys(CONSTRAINTS) as Kind[], 5);

function mixesOf(kinds: readonly Kind[], left: number): Kind[][] {
  if (left === 0) return [[]];
  const [first, ...others] = kinds;
  if (first === undefined || left < 0) return [];
  return [...mixesOf(kinds, left - CONSTRAINTS[first]).map((rest) => [first, ...rest]), ...mixesOf(others, left)];
}

export interface Drawn {
  readonly members: readonly MemberDocument[];
  /** Names of points at the chassis' end of something. */
  readonly mounts: readonly string[];
  /** Lines along which something of the corner is likely to be: from, to. */
  readonly lines: readonly (readonly [Vec3, Vec3])[];
}

/** Puts a point into the scene and tells how it is mentioned. */
export type PutPoint = (name: string, at: Vec3) => PointDocument;

/** Where each kind of member goes in each mix, at usual proportions of the rear corner of a car with 16" wheels. */
const LINKS = {
  upper: [
    [-20, 410, 425],
    [-20, 650, 430],
  ],
  lower: [
    [-70, 260, 200],
    [-70, 660, 205],
  ],
  toe: [
    [-150, 330, 225],
    [-150, 670, 230],
  ],
  toeAhead: [
    [120, 400, 240],
    [118, 685, 243],
  ],
  front: [
    [90, 300, 210],
    [60, 660, 200],
  ],
  high: [
    [480, 600, 440],
    [30, 680, 400],
  ],
  low: [
    [480, 600, 220],
    [30, 680, 180],
  ],
} as const satisfies Record<string, readonly [Vec3, Vec3]>;

type LinkName = keyof typeof LINKS;

function linksOf(mix: readonly Kind[], dice: Dice): LinkName[] {
  const has = (kind: Kind): number => mix.filter((each) => each === kind).length;
  const toe: LinkName = dice.chance(0.5) ? "toe" : "toeAhead";
  switch (has("link")) {
    case 5:
      return ["upper", "lower", toe, "high", "low"];
    case 3:
      if (has("strut") > 0) return ["lower", "front", "low"];
      return has("wishbone") > 0 && dice.chance(0.5) ? [toe, "upper", "high"] : ["lower", toe, "low"];
    case 2:
      return ["upper", "lower"];
    case 1:
      return has("strut") === 2 ? ["lower"] : [toe];
    default:
      return [];
  }
}

const STRUTS: readonly (readonly [Vec3, Vec3])[] = [
  [
    [-20, 560, 640],
    [0, 640, 260],
  ],
  [
    [-130, 560, 640],
    [-120, 640, 260],
  ],
];
const UPPER: readonly [Vec3, Vec3, Vec3] = [
  [90, 420, 430],
  [-90, 420, 430],
  [-5, 660, 440],
];
const LOWER: readonly [Vec3, Vec3, Vec3] = [
  [150, 300, 200],
  [-130, 300, 200],
  [5, 690, 195],
];
/** Behind a one-piece hub and arm. */
const NARROW: readonly [Vec3, Vec3, Vec3] = [
  [0, 260, 200],
  [-150, 260, 200],
  [-70, 660, 205],
];

/** The members of one mix, each point within ±spread of the usual place. */
export function drawMembers(mix: readonly Kind[], spread: number, dice: Dice, put: PutPoint): Drawn {
  const members: MemberDocument[] = [];
  const mounts: string[] = [];
  const lines: [Vec3, Vec3][] = [];
  const mount = (name: string, place: Vec3): { at: Vec3; point: PointDocument } => {
    const at = dice.near(place, spread);
    mounts.push(name);
    return { at, point: put(name, at) };
  };
  const joint = (name: string, place: Vec3): { at: Vec3; point: PointDocument } => {
    const at = dice.near(place, spread);
    return { at, point: put(name, at) };
  };
  const stock = () => (dice.chance(0.3) ? { stock: dice.pick(["made", "donor"] as const) } : {});
  const diameter = () => (dice.chance(0.7) ? { diameter_mm: dice.between(16, 42) } : {});

  const link = (id: LinkName): void => {
    const [inside, outside] = LINKS[id];
    const inboard = mount(`${id}.in`, inside);
    const outboard = joint(`${id}.out`, outside);
    lines.push([inboard.at, outboard.at]);
    members.push({
      id,
      kind: "link",
      inboard: inboard.point,
      outboard: outboard.point,
      ...diameter(),
      ...stock(),
      // across the link, whichever way that runs
      ...(dice.chance(0.25)
        ? { bushAxis: [...dice.leaning(inside[0] > 300 ? [0, 1, 0] : [1, 0, 0], 0.3)] as [number, number, number] }
        : {}),
      ...(dice.chance(0.2)
        ? { body: cranked(inboard.point, outboard.point, inboard.at, outboard.at, dice) }
        : dice.chance(0.05)
          ? { body: null }
          : {}),
    });
  };
  const wishbone = (id: string, places: readonly [Vec3, Vec3, Vec3]): void => {
    const front = mount(`${id}.front`, places[0]);
    const rear = mount(`${id}.rear`, places[1]);
    const outboard = joint(`${id}.out`, places[2]);
    lines.push([front.at, outboard.at], [rear.at, outboard.at]);
    members.push({
      id,
      kind: "wishbone",
      front: front.point,
      rear: rear.point,
      outboard: outboard.point,
      ...diameter(),
      ...stock(),
    });
  };

  const wishbones = mix.filter((kind) => kind === "wishbone").length;
  const links = linksOf(mix, dice);
  let struts = 0;
  for (const kind of mix) {
    if (kind === "ball") {
      const at = mount("arm.front", [430, dice.between(560, 640), dice.between(240, 340)]);
      lines.push([at.at, [20, 680, 300]]);
      members.push({ id: "arm", kind, at: at.point, ...stock(), ...ownBody(at.point, dice) });
    } else if (kind === "hinge") {
      const front = mount("swing.front", [380, 590, 300]);
      const rear = mount("swing.rear", [300, 230, 310]);
      lines.push([front.at, rear.at], [front.at, [20, 680, 300]]);
      members.push({
        id: "swing",
        kind,
        front: front.point,
        rear: rear.point,
        ...stock(),
        ...ownBody(front.point, dice),
      });
    } else if (kind === "strut") {
      const [upper, lower] = STRUTS[struts]!;
      const id = struts === 0 ? "leg" : "second-leg";
      struts++;
      const top = mount(`${id}.top`, upper);
      const bottom = joint(`${id}.bottom`, lower);
      lines.push([top.at, bottom.at]);
      members.push({ id, kind, top: top.point, bottom: bottom.point, ...stock() });
    } else if (kind === "wishbone") {
      const isUpper = wishbones === 2 && members.some(({ id }) => id === "wide");
      const places = isUpper ? UPPER : mix.includes("ball") ? NARROW : links.includes("lower") ? UPPER : LOWER;
      wishbone(isUpper ? "short" : "wide", wishbones === 2 && !isUpper ? LOWER : places);
    }
  }
  for (const id of links) link(id);
  return { members, mounts, lines };
}

/** A link that is bent round something in its middle. */
function cranked(inboard: PointDocument, outboard: PointDocument, from: Vec3, to: Vec3, dice: Dice): ShapeDocument {
  const bow = dice.near([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2], 25);
  return { kind: "tube", path: [inboard, [...bow], outboard], diameter_mm: dice.between(16, 32) };
}

/** An arm from the mount to the hub, for what is one with it. */
function ownBody(from: PointDocument, dice: Dice): { body?: ShapeDocument } {
  if (dice.chance(0.4)) return {};
  const to: [number, number, number] = [40, 650, dice.between(240, 330)];
  const ends = { from, to };
  const cone: ShapeDocument = { kind: "cone", ...ends, fromDiameter_mm: 40, toDiameter_mm: dice.between(45, 80) };
  return { body: dice.chance(0.5) ? cone : { kind: "capsule", ...ends, diameter_mm: dice.between(30, 60) } };
}
