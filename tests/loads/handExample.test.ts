import { describe, expect, it } from "vitest";
import { arrowsOf, GROUND } from "../../src/app/loads/arrows.ts";
import { compileCorner } from "../../src/kinematics/corner.ts";
import type { CornerLoads, TorquePath } from "../../src/loads/forces.ts";
import { standCorner } from "../../src/loads/stand.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { corner, damper, link, shaft, wheel } from "../kinematics/corners.ts";
import { agrees } from "../truth/agreement.ts";

/**
 * Worked by hand, no source: two trailing links 150 above and below the wheel centre, one lateral link above, two below
 * 100 before and behind it, the spring pushing down at the lower three's height. About the wheel centre, with tension
 * and the spring's compression positive and the ground's force (Fx, Fy, Fz) at (0, c, −300):
 * T1 + T2 + Fx = 0, L1 + L2 + L3 = Fy, S = Fz, 150(T1 − T2) = 300 Fx (the right side falls away where the torque is held
 * inboard), 150(L1 − L2 − L3) = −300 Fy − c Fz, 100(L2 − L3) = −c Fx.
 */
function handCorner(out_mm = 0, more: Partial<Scene> = {}): Scene {
  const centre: Vec3 = [0, 740, 300];
  const at = (x: number, y: number, z: number): Vec3 => [centre[0] + x, centre[1] + y, centre[2] + z];
  const members = [
    link("T1", at(400, 0, 150), at(0, 0, 150)),
    link("T2", at(400, 0, -150), at(0, 0, -150)),
    link("L1", at(0, -400, 150), at(0, 0, 150)),
    link("L2", at(100, -400, -150), at(100, 0, -150)),
    link("L3", at(-100, -400, -150), at(-100, 0, -150)),
  ];
  // a wheel whose lower edge stands out by c touches the ground there: tan(camber) = −c/300
  const camber_deg = (-Math.atan2(out_mm, 300) * 180) / Math.PI;
  return corner(members, wheel(centre, 0, camber_deg), { damper: damper(at(0, 0, 250), at(0, 0, -150)), ...more });
}

function load(scene: Scene, force_N: Vec3, torque: TorquePath = "carrier"): CornerLoads {
  const compiled = compileCorner(scene, "left");
  return standCorner(compiled, compiled.ridePose)!.balance({ force_N, torque, dropLink_N: 0 });
}

const forces = ({ members, damper_N }: CornerLoads) => [
  ...members.map(({ sections }) => sections[0]!.axial_N),
  damper_N,
];

it("a driveshaft that stands at angles bends both joints: their couples are T / cos(β/2) in all, β by its line", () => {
  const [inner, outer]: Vec3[] = [
    [20, 240, 340],
    [0, 700, 300],
  ];
  const loads = load(handCorner(0, { driveshaft: shaft(inner!, [0, 1, 0], outer!) }), [2400, 0, 4000], "shaft");
  const beta = Math.acos((outer![1] - inner![1]) / Math.hypot(...outer!.map((part, i) => part - inner![i]!)));
  agrees("shaftLoadAngles", loads.shaft!.inner_deg, (beta * 180) / Math.PI, 9);
  agrees("shaftLoadAngles", loads.shaft!.outer_deg, (beta * 180) / Math.PI, 9);
  for (const end of ["driveshaft.inner", "driveshaft.outer"]) {
    const { moment_Nmm } = loads.joints.find(({ id }) => id === end)!;
    // T along the spin axis and T·tan(β/2) across it (Seherr-Thoss et al., from memory)
    agrees("shaftCouple", Math.hypot(...moment_Nmm) / (2400 * 300), 1 / Math.cos(beta / 2), 9);
  }
});

describe("the hand-worked corner", () => {
  it.each([
    [
      "outboard brake and outer wheel in a bend",
      0,
      [-2400, -3000, 4000],
      "carrier",
      [-1200, 3600, 1500, -2250, -2250, 4000],
    ],
    [
      "the same, the ground point 10 further out",
      10,
      [-2400, -3000, 4000],
      "carrier",
      [-1200, 3600, 4100 / 3, -6190 / 3, -6910 / 3, 4000],
    ],
    ["drive held at the differential", 0, [2400, 0, 4000], "shaft", [-1200, -1200, 0, 0, 0, 4000]],
    ["drive held on the hub", 0, [2400, 0, 4000], "carrier", [1200, -3600, 0, 0, 0, 4000]],
    ["a wheel that rolls free against a bump", 0, [-2400, 0, 4000], "free", [1200, 1200, 0, 0, 0, 4000]],
  ] as const)("%s", (_, out_mm, force_N, torque, wanted) => {
    const loads = load(handCorner(out_mm), force_N, torque);
    const found = forces(loads);
    for (const [i, value] of wanted.entries()) agrees("axialForce", found[i], value, 6);
    // every link of this corner is 400 long
    for (const { sections } of loads.members) agrees("sectionLength", sections[0]!.length_mm, 400, 9);
    for (const i of [0, 1, 2]) agrees("groundForce", loads.ground.force_N[i], force_N[i]!, 9);
    // drawn at both ends of each link, and of the ground: as large as it is
    const arrows = new Map(arrowsOf(loads, 0.1).map((arrow) => [arrow.id, arrow.force_N]));
    agrees("arrowForce", arrows.get(GROUND), Math.hypot(...force_N), 6);
    for (const [i, id] of ["T1", "T2", "L1", "L2", "L3"].entries()) {
      if (wanted[i] !== 0) agrees("arrowForce", arrows.get(`${id}.outboard`), Math.abs(wanted[i]!), 6);
    }
  });

  it("gives a straight shaft the torque and nothing else", () => {
    const scene = handCorner(0, { driveshaft: shaft([0, 240, 300], [0, 1, 0], [0, 700, 300]) });
    const loads = load(scene, [2400, 0, 4000], "shaft");
    expect(forces(loads).map((value) => Math.round(value * 1e6) / 1e6 + 0)).toEqual([-1200, -1200, 0, 0, 0, 4000]);
    agrees("shaftTorque", Math.abs(loads.shaft!.torque_Nmm), 2400 * 300, 6);
    const inner = loads.joints.find(({ id }) => id === "driveshaft.inner")!;
    for (const part of inner.force_N) expect(part).toBeCloseTo(0, 9);
  });
});
