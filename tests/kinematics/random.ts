import type { Vec3 } from "../../src/maths/vec3.ts";
import type { Member } from "../../src/scene/scene.ts";
import { ball, hinge, link, strut, wishbone } from "./corners.ts";

/** A seeded stream of numbers in [0, 1) (the mulberry32 mixing function, public domain). */
export function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Every kind of member and their mixes that make five, near usual proportions, each point moved at random by ±25 mm. */
export function randomMembers(random: () => number): ReadonlyMap<string, Member[]> {
  const near = (x: number, y: number, z: number): Vec3 => [
    x + 50 * (random() - 0.5),
    y + 50 * (random() - 0.5),
    z + 50 * (random() - 0.5),
  ];
  const upper = () => wishbone("upper", near(90, 420, 430), near(-90, 420, 430), near(-5, 660, 440));
  const lower = () => wishbone("lower", near(150, 300, 200), near(-130, 300, 200), near(5, 690, 195));
  const toe = () => link("toe", near(-150, 330, 225), near(-150, 670, 230));
  const upperLink = () => link("upper", near(-20, 410, 425), near(-20, 650, 430));
  const lowerLink = () => link("lower", near(-70, 260, 200), near(-70, 660, 205));
  const frontLink = () => link("front", near(90, 300, 210), near(60, 660, 200));
  const trailing = (id: string, z: number) => link(id, near(480, 600, z + 40), near(30, 680, z));
  const leg = () => strut("leg", near(-20, 560, 640), near(0, 640, 260));
  return new Map<string, Member[]>([
    ["five links", [upperLink(), lowerLink(), toe(), trailing("high", 400), trailing("low", 180)]],
    ["ball and two links", [ball("arm", near(430, 640, 330)), upperLink(), lowerLink()]],
    [
      "ball and wishbone",
      [
        ball("arm", near(430, 640, 330)),
        wishbone("lower", near(0, 260, 200), near(-150, 260, 200), near(-70, 660, 205)),
      ],
    ],
    ["ball and strut", [ball("arm", near(430, 560, 250)), leg()]],
    ["two wishbones and a link", [upper(), lower(), toe()]],
    ["wishbone and three links", [lower(), toe(), upperLink(), trailing("high", 420)]],
    ["strut, wishbone and link", [leg(), lower(), toe()]],
    ["strut and three links", [leg(), lowerLink(), frontLink(), trailing("low", 220)]],
    ["hinge", [hinge("swing", near(380, 590, 300), near(300, 230, 310))]],
  ]);
}

/** Nonsense of the same kinds: every coordinate moved by up to ±120 mm more. Most of these lock early. */
export function wildMembers(seed: number): ReadonlyMap<string, Member[]> {
  const random = randomOf(seed);
  const wild = new Map<string, Member[]>();
  for (const [mix, members] of randomMembers(random))
    wild.set(
      mix,
      members.map((member) => shaken(member, random)),
    );
  return wild;
}

function shaken(member: Member, random: () => number): Member {
  const away = (p: Vec3): Vec3 => [
    p[0] + 240 * (random() - 0.5),
    p[1] + 240 * (random() - 0.5),
    p[2] + 240 * (random() - 0.5),
  ];
  switch (member.kind) {
    case "ball":
      return ball(member.id, away(member.at));
    case "link":
      return link(member.id, away(member.inboard), away(member.outboard));
    case "wishbone":
      return wishbone(member.id, away(member.front), away(member.rear), away(member.outboard));
    case "hinge":
      return hinge(member.id, away(member.front), away(member.rear));
    case "strut":
      return strut(member.id, away(member.top), away(member.bottom));
  }
}
