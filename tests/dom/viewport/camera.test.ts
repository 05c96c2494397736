import { PerspectiveCamera, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import {
  type CameraPlace,
  cameraFrame,
  directionAngles,
  LENS_DEG,
  mixedPlace,
  orbited,
  panned,
  standDirection,
  zoomed,
} from "../../../src/app/viewport/cameraPlace.ts";
import { closeLookDirection } from "../../../src/app/viewport/closeLookStyle.ts";
import { framed, freeArea } from "../../../src/app/viewport/framing.ts";
import { aim } from "../../../src/app/viewport/lens.ts";
import { Marks, type ProjectedPoint } from "../../../src/app/viewport/marks.ts";
import { CameraRig } from "../../../src/app/viewport/rig.ts";
import { dot, length, type Vec3 } from "../../../src/maths/vec3.ts";

const SIZE = { width: 1000, height: 600 };
const REACH = { centre: [0, 0, 300] as Vec3, radius_mm: 1500 };

function project(place: CameraPlace, points: readonly Vec3[], shift = { x: 0, y: 0 }): readonly ProjectedPoint[] {
  const camera = new PerspectiveCamera();
  aim(camera, place, SIZE, LENS_DEG, shift, REACH);
  const marks = new Marks();
  let told: readonly ProjectedPoint[] = [];
  marks.points = points;
  marks.onProject = (projected) => {
    told = projected;
  };
  marks.project(camera, SIZE);
  return told;
}

const place: CameraPlace = { target: [40, 10, 400], azimuth_rad: 2.9, elevation_rad: 0.3, distance_mm: 4200 };

describe("the lens", () => {
  it("shows what is looked at in the middle, moved by the shift of the free area", () => {
    const [middle] = project(place, [place.target]);
    expect(middle!.x).toBeCloseTo(500, 3);
    expect(middle!.y).toBeCloseTo(300, 3);
    const [moved] = project(place, [place.target], { x: 60, y: 25 });
    expect(moved!.x).toBeCloseTo(560, 3);
    expect(moved!.y).toBeCloseTo(275, 3);
  });

  it("draws by central projection: offset · half height / (distance · tan of half the angle)", () => {
    const { right, up, back } = cameraFrame(place);
    const [a, b, c] = [120, -75, 300];
    const p = [0, 1, 2].map((i) => place.target[i]! + a * right[i]! + b * up[i]! + c * back[i]!) as unknown as Vec3;
    const scale = 300 / ((place.distance_mm - c) * Math.tan((LENS_DEG * Math.PI) / 360));
    const [seen] = project(place, [p]);
    expect(seen!.x).toBeCloseTo(500 + a * scale, 3);
    expect(seen!.y).toBeCloseTo(300 - b * scale, 3);
  });

  it("says what is behind the eye or out of the picture", () => {
    const { eye, back } = cameraFrame(place);
    const behind = [0, 1, 2].map((i) => eye[i]! + 100 * back[i]!) as unknown as Vec3;
    expect(project(place, [behind, [0, 3000, 0], place.target]).map(({ visible }) => visible)).toEqual([
      false,
      false,
      true,
    ]);
  });

  it("tells of marks only when they moved", () => {
    const camera = new PerspectiveCamera();
    aim(camera, place, SIZE, LENS_DEG, { x: 0, y: 0 }, REACH);
    const marks = new Marks();
    let times = 0;
    marks.points = [[0, 0, 300]];
    marks.onProject = () => {
      times++;
    };
    marks.project(camera, SIZE);
    marks.project(camera, SIZE);
    expect(times).toBe(1);
    aim(camera, { ...place, distance_mm: 4000 }, SIZE, LENS_DEG, { x: 0, y: 0 }, REACH);
    marks.project(camera, SIZE);
    expect(times).toBe(2);
  });
});

describe("moving the eye", () => {
  const pivot: Vec3 = [150, 420, 450];

  it.each([
    ["orbits", (p: CameraPlace) => orbited(p, pivot, 0.7, -0.25)],
    ["comes nearer", (p: CameraPlace) => zoomed(p, pivot, 0.4)],
    ["goes off", (p: CameraPlace) => zoomed(p, pivot, 2.5)],
  ] as const)("%s about the pointed place, which stays where it is in the picture", (_, move) => {
    const [before] = project(place, [pivot]);
    const [after] = project(move(place), [pivot]);
    expect(after!.x).toBeCloseTo(before!.x, 3);
    expect(after!.y).toBeCloseTo(before!.y, 3);
  });

  it("stops short of overhead and underneath", () => {
    const high = orbited(place, pivot, 0, 10);
    const low = orbited(place, pivot, 0, -10);
    expect(high.elevation_rad).toBeLessThan(Math.PI / 2);
    expect(low.elevation_rad).toBeGreaterThan(-Math.PI / 2);
  });

  it("slides what is grabbed with the hand", () => {
    const scale = (place.distance_mm * Math.tan((LENS_DEG * Math.PI) / 360)) / 300;
    const [before] = project(place, [place.target]);
    const [after] = project(panned(place, 30 * scale, 20 * scale), [place.target]);
    expect(after!.x - before!.x).toBeCloseTo(30, 3);
    expect(after!.y - before!.y).toBeCloseTo(-20, 3);
  });

  it("eases the short way round within 160 ms, and at once when asked", () => {
    const [from, to] = [
      { ...place, azimuth_rad: 3 },
      { ...place, azimuth_rad: -3 },
    ];
    expect(mixedPlace(from, to, 0.5).azimuth_rad).toBeCloseTo(Math.PI, 6);
    const rig = new CameraRig();
    rig.moveTo(from, 0, true);
    expect(rig.easing).toBe(false);
    rig.moveTo(to, 1000, false);
    rig.advance(1080);
    expect(rig.easing).toBe(true);
    rig.advance(1160);
    expect(rig.easing).toBe(false);
    expect(rig.place).toEqual(to);
  });

  it("reads a direction's angles back", () => {
    const { back } = cameraFrame(place);
    const angles = directionAngles(back);
    expect(angles.azimuth_rad).toBeCloseTo(place.azimuth_rad, 9);
    expect(angles.elevation_rad).toBeCloseTo(place.elevation_rad, 9);
  });
});

describe("stands", () => {
  const inset = { top: 70, right: 150, bottom: 90, left: 110 };
  const corners: Vec3[] = [-500, 700].flatMap((x) => [-860, 860].flatMap((y) => [0, 760].map((z): Vec3 => [x, y, z])));

  it.each(["behind", "left", "right", "above"] as const)(
    "frame the car %s into the free area, touching its edges",
    (stand) => {
      const found = framed(corners, standDirection(stand), SIZE, inset, (LENS_DEG * Math.PI) / 180)!;
      const seen = project(found, corners, freeArea(SIZE, inset));
      const xs = seen.map(({ x }) => x);
      const ys = seen.map(({ y }) => y);
      const gaps = [
        Math.min(...xs) - inset.left,
        SIZE.width - inset.right - Math.max(...xs),
        Math.min(...ys) - inset.top,
        SIZE.height - inset.bottom - Math.max(...ys),
      ];
      for (const gap of gaps) expect(gap).toBeGreaterThan(-0.01);
      const [acrossGap, uprightGap] = [Math.max(gaps[0]!, gaps[1]!), Math.max(gaps[2]!, gaps[3]!)];
      expect(Math.min(acrossGap, uprightGap)).toBeLessThan(0.01);
    },
  );

  it("have the left wheel on the left from behind and the car's front on top from above", () => {
    for (const stand of ["behind", "above"] as const) {
      const found = framed(corners, standDirection(stand), SIZE, inset, (LENS_DEG * Math.PI) / 180)!;
      const [left, right, front, back] = project(found, [
        [0, 700, 300],
        [0, -700, 300],
        [600, 0, 300],
        [-400, 0, 300],
      ]);
      expect(left!.x).toBeLessThan(right!.x);
      expect(front!.y).toBeLessThan(back!.y);
    }
  });

  it("have nothing to frame without a car", () => {
    expect(framed([], standDirection("behind"), SIZE, inset, 0.3)).toBeNull();
  });
});

describe("the close look", () => {
  it.each([
    [0, 0, 1],
    [0, 1, 0],
    [-0.33, 0, 0.94],
    [1, 0, 0],
    [0.6, -0.5, 0.62],
  ] as const)("looks square to the way the bodies part: %s %s %s", (x, y, z) => {
    const from = closeLookDirection([x, y, z]);
    expect(length(from)).toBeCloseTo(1, 9);
    expect(dot(from, [x, y, z])).toBeCloseTo(0, 9);
  });

  it("looks from above where it may", () => {
    expect(closeLookDirection([0, 1, 0])[2]).toBeGreaterThan(0.8);
  });

  it("keeps three's matrices those of the place", () => {
    const camera = new PerspectiveCamera();
    aim(camera, place, SIZE, LENS_DEG, { x: 0, y: 0 }, REACH);
    const there = new Vector3(1, 2, 3).applyMatrix4(camera.matrixWorld).applyMatrix4(camera.matrixWorldInverse);
    expect(there.distanceTo(new Vector3(1, 2, 3))).toBeLessThan(1e-6);
  });
});
