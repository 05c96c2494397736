import { describe } from "vitest";
import { itRefuses, type Refused } from "./fixture.ts";

const hangsOn = (from: string) => ({ at: { from, by: [0, 0, 1] } });

describe("points that lead nowhere", () => {
  itRefuses("missing-point", [
    ["a slip", { "members[1].inboard": "uper.in" }, "members[1].inboard", /"uper\.in"; wanted: upper\.in\?/],
    [
      "from nowhere",
      { "wheel.centre": hangsOn("nowhere at all").at },
      "wheel.centre.from",
      /one of the points arm\.front/,
    ],
    ["an entry", { 'points["upper.ear.bolt"].at': "ear" }, 'points["upper.ear.bolt"].at', /"ear"/],
    ["a name of JavaScript's own", { "wheel.centre": "toString" }, "wheel.centre", /toString/],
    ["bolted up", { 'boltedUp["uper.in"]': [0, 0, 0] }, 'boltedUp["uper.in"]', /upper\.in\?/],
  ]);
  itRefuses("circular-point", [
    ["on itself", { "points.a": hangsOn("a") }, "points.a.at.from", /: a → a;/],
    [
      "in a circle",
      { "points.a": { at: "b" }, "points.b": hangsOn("c"), "points.c": { at: "a" } },
      "points.c.at",
      /: a → b → c → a;/,
    ],
    [
      "in a circle that is entered from outside",
      { "points.a": hangsOn("b"), "points.b": { at: "b" }, "wheel.centre": "a" },
      "points.b.at",
      /: b → b;/,
    ],
  ]);
});

const reserved = "tyre rim damper-upper damper-lower driveshaft spring bar bar-link chassis powertrain carrier".split(
  " ",
);

describe("ids that stand twice", () => {
  itRefuses("duplicate-id", [
    ["two members", { "members[2].id": "upper" }, "members[2].id", /taken already \(members\[1\]\)/],
    ["a body and a member", { "bodies[0].id": "upper" }, "bodies[0].id", /"upper"/],
    ["two bodies", { "bodies[0].id": "ear" }, "bodies[1].id", /bodies\[0\]/],
    ...reserved.map((id): Refused => [`a body named ${id}`, { "bodies[0].id": id }, "bodies[0].id", /own/]),
    ["a body named *", { "bodies[0].id": "*" }, "bodies[0].id", /clearance rules/],
    ["a body named role:x", { "bodies[0].id": "role:x" }, "bodies[0].id", /clearance rules/],
    ["like a piece of another", { "bodies[0].id": "spring#upper" }, "bodies[0].id", /piece of spring/],
    ["like one side of another", { "bodies[0].id": "upper@left" }, "bodies[0].id", /piece of upper/],
    ["two powertrain poses", { "powertrain.poses[1].id": "drive" }, "powertrain.poses[1].id", /pose/],
    ["a pose named rest", { "powertrain.poses[1].id": "rest" }, "powertrain.poses[1].id", /always there/],
    ["two datums", { "datums[1].id": "rail" }, "datums[1].id", /datum/],
  ]);
});

describe("mentions that name nothing", () => {
  itRefuses("missing-id", [
    ["a body on a slip", { "bodies[0].on": "powertrian" }, "bodies[0].on", /powertrain\?/],
    ["a body on no damper", { damper: undefined, "bodies[0].on": "damper-upper" }, "bodies[0].on", /damper-upper/],
    ["a body on no shaft", { driveshaft: undefined, "bodies[0].on": "driveshaft" }, "bodies[0].on", /driveshaft/],
    ["a body on a body", { "bodies[0].on": "ear" }, "bodies[0].on", /"ear"/],
    ["a damper on the chassis", { "damper.on": "chassis" }, "damper.on", /carrier/],
    ["a bar on a slip", { "antiRollBar.on": "uppr" }, "antiRollBar.on", /upper\?/],
    ["a rule for a slip", { "clearances.rules[0].a": "tire" }, "clearances.rules[0].a", /"tire".*tyre\?/],
    ["a rule for what has no surface", { "clearances.rules[0].b": "chassis" }, "clearances.rules[0].b", /chassis/],
    [
      "a rule for a slip of a role",
      { "clearances.rules[1].a": "role:casin" },
      "clearances.rules[1].a",
      /role:casing\?/,
    ],
    ["a rule for no role", { "clearances.rules[1].a": "role:" }, "clearances.rules[1].a", /role:NAME/],
    ["a pair left out", { "clearances.accept[0].b": "flap" }, "clearances.accept[0].b", /flap/],
  ]);
});
