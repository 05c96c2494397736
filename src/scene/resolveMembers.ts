import { normalise, subtract, type Vec3 } from "../maths/vec3.ts";
import { CONSTRAINTS, type MemberDocument, type PointDocument } from "./document.ts";
import { keptShape } from "./keptShape.ts";
import { apart, offLine, type Resolving, SAME_PLACE_MM, unitVector } from "./resolving.ts";
import type { Member, Stock } from "./scene.ts";

const DEFAULT_DIAMETER_MM = 30;

/** A link or wishbone is taken to be made for the car; what carries the hub itself comes whole from a donor. */
const DEFAULT_STOCK: Readonly<Record<MemberDocument["kind"], Stock>> = {
  ball: "donor",
  hinge: "donor",
  strut: "donor",
  link: "made",
  wishbone: "made",
};

/** The members with points resolved; throws InputError `constraints`, `zero-length` and what their bodies throw. */
export function resolveMembers(members: readonly MemberDocument[], context: Resolving): Member[] {
  countConstraints(members, context);
  return members.map((member, i) => resolveMember(member, `members[${i}]`, context));
}

/** The carrier has six freedoms; its members must leave one, the wheel's travel. */
function countConstraints(members: readonly MemberDocument[], { refuse }: Resolving): void {
  const total = members.reduce((sum, member) => sum + CONSTRAINTS[member.kind], 0);
  if (total === 5) return;
  const counted = members.map(({ id, kind }) => `${id} ${CONSTRAINTS[kind]}`).join(", ");
  throw refuse(
    "constraints",
    "members",
    `the members hold the hub with ${total} constraints (${counted})`,
    "5 in all: ball 3, link 1, wishbone 2, hinge 5, strut 2",
  );
}

function resolveMember(member: MemberDocument, path: string, context: Resolving): Member {
  const { drawn, mounted } = context;
  const base = {
    id: member.id,
    stock: member.stock ?? DEFAULT_STOCK[member.kind],
    body: member.body ? keptShape(member.body, `${path}.body`, drawn, context) : member.body,
    diameter_mm: ("diameter_mm" in member ? member.diameter_mm : undefined) ?? DEFAULT_DIAMETER_MM,
  };
  const at = (point: PointDocument, field: string) => drawn(point, `${path}.${field}`);
  const mount = (point: PointDocument, field: string) => mounted(point, `${path}.${field}`);

  switch (member.kind) {
    case "ball":
      return { ...base, kind: "ball", at: at(member.at, "at"), atMounted: mount(member.at, "at") };
    case "link": {
      const inboard = at(member.inboard, "inboard");
      const outboard = at(member.outboard, "outboard");
      apart(inboard, outboard, `${path}.outboard`, `the link ${member.id}`, context);
      const bushAxis = member.bushAxis ? unitVector(member.bushAxis, `${path}.bushAxis`, context) : null;
      return { ...base, kind: "link", inboard, inboardMounted: mount(member.inboard, "inboard"), outboard, bushAxis };
    }
    case "wishbone": {
      const ends = hingeLine(member.front, member.rear);
      const outboard = at(member.outboard, "outboard");
      if (offLine(outboard, ends.front, normalise(subtract(ends.rear, ends.front))) < SAME_PLACE_MM) {
        const wrong = `the outboard end of ${member.id} lies on its own hinge line`;
        throw context.refuse("zero-length", `${path}.outboard`, wrong, "a place off the line from front to rear");
      }
      return { ...base, kind: "wishbone", ...ends, outboard };
    }
    case "hinge":
      return { ...base, kind: "hinge", ...hingeLine(member.front, member.rear) };
    case "strut": {
      const top = at(member.top, "top");
      const bottom = at(member.bottom, "bottom");
      apart(top, bottom, `${path}.bottom`, `the strut ${member.id}`, context);
      return { ...base, kind: "strut", top, topMounted: mount(member.top, "top"), bottom };
    }
  }

  function hingeLine(
    frontPoint: PointDocument,
    rearPoint: PointDocument,
  ): Record<"front" | "rear" | "frontMounted" | "rearMounted", Vec3> {
    const ends = {
      front: at(frontPoint, "front"),
      rear: at(rearPoint, "rear"),
      frontMounted: mount(frontPoint, "front"),
      rearMounted: mount(rearPoint, "rear"),
    };
    apart(ends.front, ends.rear, `${path}.rear`, `the hinge line of ${member.id}`, context);
    apart(ends.frontMounted, ends.rearMounted, `${path}.rear`, `the bolted-up hinge line of ${member.id}`, context);
    return ends;
  }
}
