import { describe, expect, it } from "vitest";
import { removePart } from "../../../src/scene/parts/remove.ts";
import { addUnit } from "../../../src/scene/parts/units.ts";
import { withPoint } from "../../../src/scene/points.ts";
import { readScene } from "../../../src/scene/read.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { writeScene } from "../../../src/scene/write.ts";
import { smallScene } from "../../app/smallScene.ts";

describe("units from the shelf", () => {
  it.each(["damper", "antiRollBar", "driveshaft"] as const)(
    "adds a %s beside the wheel, in a file that reads back",
    (unit) => {
      const document = addUnit(smallScene(), unit);
      expect(readScene(writeScene(document), "car.json")).toEqual(document);
      expect(resolveScene(document)[unit]).not.toBeNull();
      expect(addUnit(document, unit)).toEqual(document);
    },
  );

  it("gives the driveshaft its joints and boots, which ride where they belong and follow the joints", () => {
    const document = addUnit(smallScene(), "driveshaft");
    const riders = Object.fromEntries(document.bodies.slice(2).map(({ id, on }) => [id, on]));
    expect(riders).toEqual({
      "inner joint": "powertrain",
      "outer joint": "carrier",
      "inner boot": "driveshaft",
      "outer boot": "driveshaft",
    });
    // a boot is clamped to its own joint: that they meet is no clash
    const accepted = document.clearances.accept!.map(({ a, b }) => `${a} ${b}`);
    expect(accepted).toEqual(["inner boot inner joint", "outer boot outer joint"]);
    expect(removePart(document, "outer boot").clearances.accept).toHaveLength(1);
    const moved = withPoint(document, "shaft.in", [40, 180, 330]);
    const boot = (scene: typeof document) => scene.bodies.find(({ id }) => id === "inner boot")!.shape;
    expect(boot(moved)).not.toEqual(boot(document));
  });

  it("puts back a boot that was deleted", () => {
    const document = addUnit(smallScene(), "driveshaft");
    const without = removePart(document, "outer boot");
    expect(addUnit(without, "driveshaft").bodies).toEqual(document.bodies);
  });
});
