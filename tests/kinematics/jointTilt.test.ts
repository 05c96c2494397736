import { describe, expect, it } from "vitest";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { jointReader, linkTwistReader } from "../../src/kinematics/jointTilt.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { normalise } from "../../src/maths/vec3.ts";
import type { JointFit, LinkMember, Scene } from "../../src/scene/scene.ts";
import { agrees } from "../truth/agreement.ts";
import { ball, bar, corner, damper, hinge, link, strut, wheel, wishbone } from "./corners.ts";

const RAD = Math.PI / 180;

const jointOf = (joint: string, kind: JointFit["kind"], axis: Vec3, more: Partial<JointFit> = {}): JointFit => ({
  joint,
  kind,
  axis: normalise(axis),
  tilt_deg: 13,
  twist_deg: null,
  crooked_deg: 0,
  ...more,
});

const at = (scene: Scene, travel_mm: number, joint: JointFit) => {
  const compiled = compileCorner(scene, "left");
  const { pose } = solveCorner(compiled, travel_mm);
  const read = jointReader(compiled, joint);
  return { tilt_deg: read.tilt_deg(pose), twist_deg: read.twist_deg(pose) };
};

describe("bushes of a pure trailing arm of 450 mm, 80 mm up", () => {
  const scene = corner([hinge("swing", [450, 600, 300], [450, 300, 300])], wheel([0, 740, 300]));
  // sin φ = 80/450 (closed form)
  const swing_deg = Math.asin(80 / 450) / RAD;

  it("twist by the arm's swing of 10.24035° and do not tilt", () => {
    for (const end of ["swing.front", "swing.rear"]) {
      const { tilt_deg, twist_deg } = at(scene, 80, jointOf(end, "bush", [0, 1, 0]));
      agrees("jointTwist", Math.abs(twist_deg), swing_deg, 9);
      expect(swing_deg).toBeCloseTo(10.24035, 5);
      expect(tilt_deg).toBeLessThan(1e-9);
    }
  });

  it("tilt by arccos(cos² θ + sin² θ·cos φ) on a bolt that stands θ off the swing's axis (spherical cosine rule)", () => {
    for (const off_deg of [2, 10, 35]) {
      const [s, c] = [Math.sin(off_deg * RAD), Math.cos(off_deg * RAD)];
      const { tilt_deg, twist_deg } = at(scene, 80, jointOf("swing.front", "bush", [s, c, 0]));
      agrees("jointTilt", tilt_deg, Math.acos(c * c + s * s * Math.cos(swing_deg * RAD)) / RAD, 6);
      // tan(twist/2) = cos θ · tan(φ/2): the part of a turn's quaternion that lies along the bolt
      agrees("jointTwist", Math.abs(twist_deg), (2 * Math.atan(c * Math.tan((swing_deg * RAD) / 2))) / RAD, 6);
    }
  });
});

const armCorner = (bushAxis: Vec3 | null = null): Scene =>
  corner(
    [
      ball("arm", [430, 640, 330]),
      link("upper", [-20, 410, 425], [-20, 650, 430], [-20, 410, 425], bushAxis),
      link("lower", [-70, 260, 200], [-70, 660, 205]),
    ],
    wheel([0, 740, 300], 0.15, -1),
    {
      damper: damper([-15, 548, 600], [-45, 600, 235]),
      antiRollBar: bar([120, 400, 250], [0, 1, 0], [-60, 420, 250], [-60, 430, 320]),
    },
  );

describe("rod ends", () => {
  it("lean by as much as the rod leaves the plane square to its bolt, whichever way the bolt is named", () => {
    const scene = armCorner();
    for (const travel_mm of [-70, -20, 0, 60]) {
      const compiled = compileCorner(scene, "left");
      const { pose } = solveCorner(compiled, travel_mm);
      const upper = scene.members[1] as LinkMember;
      const outer = [0, 4, 8].map((row, i) => {
        const [x, y, z] = upper.outboard;
        return pose[row]! * x + pose[row + 1]! * y + pose[row + 2]! * z + pose[row + 3]! - upper.inboard[i]!;
      }) as unknown as Vec3;
      const wanted = Math.abs(Math.asin(normalise(outer)[0])) / RAD;
      for (const way of [1, -1]) {
        expect(at(scene, travel_mm, jointOf("upper.inboard", "rod end", [way, 0, 0])).tilt_deg).toBeCloseTo(wanted, 9);
      }
    }
  });

  it("on a damper and a drop link are read by their lines, at either end", () => {
    const scene = armCorner();
    for (const joint of ["damper.top", "damper.bottom", "bar.arm", "bar.pickup"]) {
      const drawn = at(scene, 0, jointOf(joint, "ball joint", [1, 0, 0]));
      expect(drawn.tilt_deg).toBeLessThan(1e-9);
      expect(Math.abs(drawn.twist_deg)).toBeLessThan(1e-9);
      expect(at(scene, 60, jointOf(joint, "ball joint", [1, 0, 0])).tilt_deg).toBeGreaterThan(0.1);
    }
  });
});

describe("a link between two rod ends", () => {
  const fits = [jointOf("upper.inboard", "rod end", [1, 0, 0.1]), jointOf("upper.outboard", "rod end", [1, 0.2, 0])];

  it("twists by what a bush at its inner end would put on the outer one: cos tilt = cos lean · cos twist", () => {
    const free = compileCorner(armCorner(), "left");
    const held = compileCorner(armCorner(fits[0]!.axis), "left");
    const twist = linkTwistReader(free, free.scene.members[1] as LinkMember, fits)!;
    for (const travel_mm of [-70, -30, 25, 60]) {
      const { pose } = solveCorner(free, travel_mm);
      const lean_deg = jointReader(free, fits[1]!).tilt_deg(pose);
      const bushed = jointReader(held, { ...fits[1]!, kind: "ball joint" }).tilt_deg(pose);
      const drawnLean_deg = jointReader(free, fits[1]!).tilt_deg(solveCorner(free, 0).pose);
      const { twist_deg } = twist(pose);
      // the bushed end is measured from as drawn, the free one from square: both from the same line on the link
      const [t, t0, spin] = [lean_deg * RAD, drawnLean_deg * RAD, twist_deg * RAD];
      expect(Math.abs(spin)).toBeGreaterThan(0.02);
      const sameWay = Math.cos(t) * Math.cos(t0) * Math.cos(spin) + Math.sin(t) * Math.sin(t0);
      const otherWay = Math.cos(t) * Math.cos(t0) * Math.cos(spin) - Math.sin(t) * Math.sin(t0);
      const near = [sameWay, otherWay].map((cosine) => Math.abs(Math.acos(cosine) / RAD - bushed));
      expect(Math.min(...near)).toBeLessThan(1e-6);
    }
  });

  it("does not twist as drawn, and leaves each end what its lean leaves it: cos φ = cos limit / cos lean", () => {
    const compiled = compileCorner(armCorner(), "left");
    const read = linkTwistReader(compiled, compiled.scene.members[1] as LinkMember, fits)!;
    const { pose } = solveCorner(compiled, 0);
    const { twist_deg, room_deg } = read(pose);
    expect(Math.abs(twist_deg)).toBeLessThan(1e-9);
    const left = fits.map((one) => {
      const lean = jointReader(compiled, one).tilt_deg(pose);
      return Math.acos(Math.cos(13 * RAD) / Math.cos(lean * RAD)) / RAD;
    });
    agrees("linkRoom", room_deg, left[0]! + left[1]!, 9);
  });

  it("is only asked of links that nothing else holds and whose ends both have a limit", () => {
    const compiled = compileCorner(armCorner(), "left");
    const upper = compiled.scene.members[1] as LinkMember;
    expect(linkTwistReader(compiled, upper, [fits[0]!])).toBeNull();
    expect(linkTwistReader(compiled, upper, [fits[0]!, { ...fits[1]!, kind: "bush" }])).toBeNull();
    expect(linkTwistReader(compiled, { ...upper, bushAxis: [1, 0, 0] }, fits)).toBeNull();
  });
});

describe("every joint of every kind of member", () => {
  it("reads nothing as drawn on a bolt that it is square to or made for", () => {
    const strutCorner = corner(
      [
        strut("leg", [-10, 560, 780], [-5, 640, 330]),
        wishbone("lower", [150, 300, 200], [-130, 300, 200], [5, 690, 195]),
        link("toe", [-150, 330, 225], [-150, 670, 230]),
      ],
      wheel([0, 740, 300]),
    );
    const joints: [Scene, string][] = [
      [strutCorner, "leg.top"],
      [strutCorner, "lower.front"],
      [strutCorner, "lower.rear"],
      [strutCorner, "lower.outboard"],
      [strutCorner, "toe.inboard"],
      [strutCorner, "toe.outboard"],
      [armCorner(), "arm.at"],
      [armCorner(), "bar.pivot"],
    ];
    for (const [scene, joint] of joints) {
      const { tilt_deg, twist_deg } = at(scene, 0, jointOf(joint, "ball joint", [0.3, 0.2, 1]));
      expect(
        [tilt_deg, Math.abs(twist_deg)].every((value) => value < 1e-9),
        joint,
      ).toBe(true);
      expect(at(scene, 50, jointOf(joint, "ball joint", [0.3, 0.2, 1])).tilt_deg, joint).toBeGreaterThan(0.01);
    }
  });
});
