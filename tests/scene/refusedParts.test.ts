import { describe } from "vitest";
import { itRefuses, type Refused } from "./fixture.ts";

const link = (id: string) => ({ id, kind: "link", inboard: [0, 300, 300], outboard: [0, 600, 300] });
const hinge = (front: unknown, rear: unknown) => ({ id: "swing", kind: "hinge", front, rear });
const wishbone = (id: string, outboard: unknown) => ({
  id,
  kind: "wishbone",
  front: [50, 300, 300],
  rear: [-50, 300, 300],
  outboard,
});
/** Other members than the saved ones, and nothing left that mentions those. */
const held = (...members: unknown[]) => ({ members, "damper.on": "carrier", clearances: { default_mm: 10 } });

describe("members that do not hold the hub with five constraints", () => {
  itRefuses("constraints", [
    [
      "four",
      { ...held(link("a"), link("b"), wishbone("c", [0, 600, 300])) },
      "members",
      /4 constraints \(a 1, b 1, c 2\)/,
    ],
    ["six", { "members[3]": link("toe") }, "members", /6 constraints.*5 in all/],
    ["ten", held(hinge([1, 0, 0], [0, 0, 0]), { ...hinge([1, 0, 0], [0, 0, 0]), id: "b" }), "members", /10/],
  ]);
});

describe("parts without length", () => {
  itRefuses("zero-length", [
    ["a link", { "members[1].outboard": "upper.in" }, "members[1].outboard", /upper has no length/],
    ["a hinge line", held(hinge([0, 300, 300], [0, 300, 300])), "members[0].rear", /hinge line/],
    [
      "a hinge line after bolting up",
      { ...held(hinge("f", [0, 300, 300])), "points.f": [50, 300, 300], "boltedUp.f": [0, 300, 300] },
      "members[0].rear",
      /bolted-up/,
    ],
    [
      "a wishbone that cannot swing its end",
      held(wishbone("a", [-90, 300, 300]), wishbone("b", [0, 600, 300]), link("toe")),
      "members[0].outboard",
      /own hinge line/,
    ],
    [
      "a strut",
      held(
        { id: "leg", kind: "strut", top: [0, 500, 600], bottom: [0, 500, 600] },
        wishbone("b", [0, 600, 300]),
        link("toe"),
      ),
      "members[0].bottom",
      /strut/,
    ],
    ["a damper", { "damper.bottom": "damper.top" }, "damper.bottom", /damper/],
    ["a shaft", { "driveshaft.outer": [25, 235, 345] }, "driveshaft.outer", /driveshaft/],
    ["a right shaft", { "driveshaft.right.inner": [0, -668, 300] }, "driveshaft.right.inner", /right/],
    ["a bar's arm", { "antiRollBar.arm": [120, 500, 250] }, "antiRollBar.arm", /own axis/],
    ["a bar's drop link", { "antiRollBar.pickup": [-60, 420, 250] }, "antiRollBar.pickup", /drop link/],
    ["a joint's axis", { "driveshaft.innerAxis": [0, 0, 0] }, "driveshaft.innerAxis", /direction/],
    ["a bush axis", { "members[1].bushAxis": [0, 0, 0] }, "members[1].bushAxis", /direction/],
    ["a pose's axis", { "powertrain.poses[0].axis": [0, 0, 0] }, "powertrain.poses[0].axis", /direction/],
  ]);
});

describe("values that contradict each other", () => {
  itRefuses("wrong-value", [
    ["parallel datum axes", { "datums[1].up": [1, 0, 0] }, "datums[1].up", /parallel/],
    ["a corner of the right side", { "wheel.centre": [0, -740, 300] }, "wheel.centre", /740 mm right/],
    ["a damper of no stroke", { "damper.open_mm": 300 }, "damper.open_mm", /more than closed_mm, which is 300/],
    ["a stop solid before it is touched", { "damper.stopSolid_mm": 326 }, "damper.stopSolid_mm", /325/],
    ["a shaft of no plunge", { "driveshaft.longest_mm": 419 }, "driveshaft.longest_mm", /419/],
    ["the same on the right", { "driveshaft.right.longest_mm": 400 }, "driveshaft.right.longest_mm", /419/],
    [
      "every pair left out",
      { "clearances.accept[0]": { a: "*", b: "*", why: "no" } },
      "clearances.accept[0]",
      /every pair/,
    ],
    ["a range downwards", { "powertrain.poses[1].within_mm": [60, -40] }, "powertrain.poses[1].within_mm", /60 to -40/],
  ]);
  itRefuses(
    "tyre",
    ["round, black", "205", "205/55", "55/205R16", "205/55R160", "999/55R16", "205/5R16", ""].map(
      (tyre): Refused => [`the tyre ${JSON.stringify(tyre)}`, { "wheel.tyre": tyre }, "wheel.tyre", /wanted: /],
    ),
  );
});
