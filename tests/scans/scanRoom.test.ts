import { describe, expect, test } from "vitest";
import { solidHash } from "../../src/geometry/content.ts";
import { composePoses, rotationPose, translationPose } from "../../src/maths/pose.ts";
import { normalise, type Vec3 } from "../../src/maths/vec3.ts";
import { readyMesh } from "../../src/scans/readyMesh.ts";
import { ScanRoom, type ScanStage } from "../../src/scans/scanRoom.ts";
import { InputError } from "../../src/scene/error.ts";
import { drawnPose, type ScanPart, scanOf, withScan } from "../../src/scene/parts/scan.ts";
import { readScene } from "../../src/scene/read.ts";
import { writeScene } from "../../src/scene/write.ts";
import { smallScene } from "../app/smallScene.ts";
import { draw } from "../geometry/support.ts";
import { agrees, agreesEach, agreesOn } from "../truth/agreement.ts";
import { bumpyBall, stlOf } from "./meshes.ts";

function roomWith(poll?: () => void) {
  const stages: ScanStage[] = [];
  const onStage = (stage: ScanStage, share?: number) => {
    if (share === undefined) stages.push(stage);
  };
  return { stages, room: new ScanRoom({ onStage, ...(poll ? { poll } : {}) }) };
}

const BOX = draw({ kind: "box", size_mm: [400, 300, 200], edge_mm: null });

describe("one scan while it is brought in", () => {
  test("is read once, and looked at as often as it is asked in the same unit", async () => {
    const { room, stages } = roomWith();
    const { triangles, guess } = await room.read(stlOf(BOX), "box.stl");
    // a box has twelve triangles
    agreesOn("scanCounted", triangles, 12);
    expect(guess.readings[0]!.unit).toBe("mm");
    agrees("scanSize", guess.readings[0]!.longest_mm, 400, 6);
    const look = await room.look("mm", null);
    agreesOn("scanCounted", look.triangles, 12);
    expect(look.isClosed).toBe(true);
    agreesEach("scanSize", look.report, { size_mm: [400, 300, 200] }, 1e-4);
    await room.look("mm", { straysBelow_mm: 5 });
    expect(stages.filter((stage) => stage === "reading" || stage === "joining")).toEqual(["reading", "joining"]);
    expect((await room.look("in", null)).report.size_mm[0]).toBeCloseTo(400 * 25.4, 2);
  });

  test("tells where a line of sight meets it, and the flat there", async () => {
    const { room } = roomWith();
    await room.read(stlOf(BOX), "box.stl");
    await room.look("mm", null);
    const at = room.hit([60, 20, 900], [0, 0, -1])!;
    expect(at[2]).toBeCloseTo(100, 4);
    expect(room.hit([900, 20, 900], [0, 0, -1])).toBeNull();
    const patch = room.patch(at, "plane", 50)!;
    expect(patch.fitted).toMatchObject({ kind: "plane" });
    expect(patch.points).toHaveLength(4);
  });

  test("ends where it stands when it is told to while it thins out, and goes on afterwards", async () => {
    let left = Number.POSITIVE_INFINITY;
    const { room } = roomWith(() => {
      if (--left < 0) throw new Error("stopped");
    });
    await room.read(stlOf(bumpyBall(30, 150, 4)), "ball.stl");
    await room.look("mm", null);
    left = 3;
    await expect(room.thin(1)).rejects.toThrow("stopped");
    left = Number.POSITIVE_INFINITY;
    const thinned = (await room.thin(1))!;
    expect(thinned.thinned.within_mm).toBe(1);
    // Euler: a closed surface without handles of V corners has 2 V − 4 triangles
    const { indices } = room.ready(thinned.thinned)!;
    agreesOn("scanCounted", thinned.triangles, 2 * new Set(indices).size - 4);
  });
});

describe("a scan as a part of the scene", () => {
  const pose = composePoses(translationPose([120, -40, 300]), rotationPose(normalise([1, 2, -1]), 0.8));
  const scan: ScanPart = {
    id: "engine-scan",
    on: "powertrain",
    role: "casing",
    file: "engine.stl",
    reading: { unit: "m", repair: { holesUpTo_mm: 40 }, thinned: { within_mm: 0.5, error_mm: 0.2 } },
    pose,
  };

  function expectPose(found: ScanPart["pose"]): void {
    for (let i = 0; i < 12; i++) expect(found[i]!).toBeCloseTo(pose[i]!, i % 4 === 3 ? 5 : 9);
  }

  test("comes back from the written file as it was brought in", () => {
    const document = readScene(writeScene(withScan(smallScene(), scan)), "car.json");
    const found = scanOf(document, scan.id)!;
    expect({ ...found, pose: null }).toEqual({ ...scan, pose: null });
    expectPose(found.pose);
  });

  test("is changed in its place, and is still found within a group that places it", () => {
    const document = withScan(smallScene(), scan);
    const other = withScan(document, { ...scan, on: "chassis", reading: { ...scan.reading, thinned: null } }, scan.id);
    expect(other.bodies).toHaveLength(document.bodies.length);
    expect(scanOf(other, scan.id)).toMatchObject({ on: "chassis", reading: { thinned: null } });
    const body = document.bodies.at(-1)!;
    const grouped = { ...body, shape: { kind: "group" as const, at: [5, 0, 0] as Vec3, parts: [body.shape] } };
    expect(scanOf({ ...document, bodies: [grouped] }, scan.id)!.pose[3]).toBeCloseTo(125, 6);
  });

  test("takes a second part of the same file along when it is read in another way", () => {
    const twice = withScan(withScan(smallScene(), scan), { ...scan, id: "second" });
    const changed = withScan(twice, { ...scan, reading: { ...scan.reading, unit: "mm" } }, scan.id);
    expect(scanOf(changed, "second")!.reading.unit).toBe("mm");
  });

  test("is not brought in under a name that is taken", () => {
    expect(() => withScan(withScan(smallScene(), scan), scan)).toThrow(InputError);
  });

  test("is drawn so that it is seen where it was placed, whatever its mount stands at", () => {
    const mount = composePoses(translationPose([0, 0, 15]), rotationPose([0, 1, 0], 0.02));
    expectPose(composePoses(mount, drawnPose(mount, pose)));
  });
});

test("the mesh that is handed on is the one that reading the file again makes", async () => {
  const { room } = roomWith();
  const bytes = stlOf(bumpyBall(20, 150, 4));
  await room.read(bytes, "ball.stl");
  const repair = { weldWithin_mm: 0.01 };
  await room.look("mm", repair);
  const { thinned } = (await room.thin(1))!;
  for (const each of [thinned, null]) {
    const again = await readyMesh(bytes, "ball.stl", { unit: "mm", repair, thinned: each });
    expect(solidHash(room.ready(each)!)).toBe(solidHash(again));
    expect(room.ready(each)!.shells).toEqual(again.shells);
  }
  expect(room.ready({ ...thinned, error_mm: 0.123 })).toBeNull();
});
