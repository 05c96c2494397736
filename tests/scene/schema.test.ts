import { describe } from "vitest";
import { itRefuses } from "./fixture.ts";

describe("a key that the format does not know is named, with the nearest one that it does", () => {
  itRefuses("unknown-key", [
    ["at the top", { colour: "red" }, "colour", /unknown key "colour"/],
    ["a slip", { "members[1].inboard": undefined, "members[1].inbord": [0, 0, 0] }, "members[1].inbord", /inboard\?/],
    ["in a point", { "members[1].inboard": { from: "arm.front", bye: [0, 0, 0] } }, "members[1].inboard.bye", /by\?/],
    ["of another kind of member", { "members[0].diameter_mm": 3 }, "members[0].diameter_mm", /known here: id/i],
    ["in a shape", { "bodies[0].shape.radius": 3 }, "bodies[0].shape.radius", /size_mm/],
    ["deep down", { "bodies[2].shape.parts[0].diamter_mm": 3 }, "bodies[2].shape.parts[0].diamter_mm", /diameter_mm\?/],
    ["of the right shaft", { "driveshaft.right.outer": [0, 0, 0] }, "driveshaft.right.outer", /inner/],
  ]);
});

describe("a value that the format does not allow is refused by its path", () => {
  itRefuses("not-finite", [
    ["a coordinate", { "members[1].outboard": [Number.NaN, 0, 0] }, "members[1].outboard[0]", /finite/],
    ["a size", { "bodies[0].shape.size_mm": [1, 2, Infinity] }, "bodies[0].shape.size_mm[2]", /finite/],
  ]);
  itRefuses("wrong-value", [
    ["a point missing", { "members[1].outboard": undefined }, "members[1].outboard", /is missing; wanted: a point/],
    ["a point of two", { "members[1].outboard": [1, 2] }, "members[1].outboard", /list of 2; wanted: \[x, y, z\]/],
    [
      "a text among numbers",
      { "members[1].outboard": [1, 2, "3"] },
      "members[1].outboard[2]",
      /text "3"; wanted: a number/,
    ],
    ["a number for a point", { "members[1].outboard": 7 }, "members[1].outboard", /is 7; wanted: a point/],
    ["half an offset", { "members[1].outboard": { from: "arm.front" } }, "members[1].outboard.by", /missing/],
    ["a point a mile off", { "wheel.centre": [0, 740, 2e6] }, "wheel.centre[2]", /1000000 mm/],
    ["no kind of member", { "members[1].kind": "linc" }, "members[1].kind", /ball, link, wishbone, hinge, strut/],
    ["no member at all", { "members[1]": null }, "members[1]", /null; wanted: a member/],
    ["a record for a list", { members: {} }, "members", /is a record; wanted: a list/],
    ["no members", { members: [] }, "members", /list of 0/],
    [
      "a link of no diameter",
      { "members[1].diameter_mm": 0 },
      "members[1].diameter_mm",
      /is 0; wanted: a number above 0/,
    ],
    ["another stock", { "members[1].stock": "bought" }, "members[1].stock", /made, donor/],
    ["no shape", { "bodies[0].shape": undefined }, "bodies[0].shape", /missing; wanted: a shape/],
    ["no kind of shape", { "bodies[0].shape.kind": "bx" }, "bodies[0].shape.kind", /box/],
    [
      "a negative size",
      { "bodies[0].shape.size_mm": [1, -4, 1] },
      "bodies[0].shape.size_mm[1]",
      /is -4; wanted: a number above 0/,
    ],
    ["a point without a name", { 'points[""]': [0, 0, 0] }, 'points[""]', /cannot be used/],
    ["an entry of two", { 'points["arm.front"].at': [0, 0] }, 'points["arm.front"].at', /list of 2/],
    ["points in a list", { points: [] }, "points", /record of points/],
    ["bolted up to a name", { 'boltedUp["upper.in"]': "upper.ear" }, 'boltedUp["upper.in"]', /\[x, y, z\]/],
    ["a rim of nothing", { "wheel.rimWidth_in": 0 }, "wheel.rimWidth_in", /2 to 20 inches/],
    ["steps of nothing", { "travel.step_mm": 0 }, "travel.step_mm", /0\.1 to 1000/],
    ["droop below nothing", { "travel.droop_mm": -70 }, "travel.droop_mm", /-70; wanted: a number from 0/],
    ["a negative damper", { "damper.open_mm": -1 }, "damper.open_mm", /above 0/],
    ["a limit past square", { "driveshaft.innerAngleLimit_deg": 91 }, "driveshaft.innerAngleLimit_deg", /at most 90/],
    ["an endlessly fine mesh", { tessellation_mm: 0 }, "tessellation_mm", /0\.005 to 5/],
    ["a negative clearance", { "clearances.rules[0].mm": -1 }, "clearances.rules[0].mm", /-1/],
    ["no reason", { "clearances.accept[0].why": "" }, "clearances.accept[0].why", /reason/],
    ["an id on two lines", { "bodies[0].id": "two\nlines" }, "bodies[0].id", /one line/],
    ["an id of blanks", { "bodies[0].id": "  " }, "bodies[0].id", /blank/],
    ["an endless id", { "bodies[0].id": "x".repeat(81) }, "bodies[0].id", /80 characters/],
    ["a number for yes", { "bodies[0].mirror": 1 }, "bodies[0].mirror", /true or false/],
    ["another side", { sides: "rear" }, "sides", /left, right, both/],
    ["a number for a title", { title: 3 }, "title", /is 3/],
  ]);
});
