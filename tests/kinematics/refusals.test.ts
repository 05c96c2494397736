import { Matrix, SingularValueDecomposition } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { compileCorner } from "../../src/kinematics/corner.ts";
import { CarrierEquations } from "../../src/kinematics/equations.ts";
import { freeMovement } from "../../src/kinematics/looseness.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { cross, dot, length, normalise, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import { InputError, type InputErrorCode } from "../../src/scene/error.ts";
import type { Member } from "../../src/scene/scene.ts";
import { ball, corner, hinge, link, strut, wheel, wishbone } from "./corners.ts";

const at = wheel([0, 740, 300]);

function refusal(members: readonly Member[]): InputError {
  try {
    compileCorner(corner(members, at), "left");
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("the corner was not refused");
}

const code = (members: readonly Member[]): InputErrorCode => refusal(members).code;

/** Five rows of six, where the corner is drawn. */
function drawnJacobian(members: readonly Member[]): Float64Array {
  const jacobian = new Float64Array(30);
  const upright = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  const equations = new CarrierEquations(corner(members, at));
  equations.evaluate(upright, Float64Array.of(...at.centre), new Float64Array(5), jacobian);
  return jacobian;
}

describe("a corner that is refused", () => {
  it("has too few or too many constraints, told with the numbers", () => {
    const few = refusal([ball("arm", [430, 640, 330]), link("upper", [-20, 410, 425], [-20, 650, 430])]);
    expect(few.code).toBe("constraints");
    expect(few.message).toContain("4 of the wheel's six freedoms (arm: ball 3, upper: link 1)");
    const many = refusal([
      hinge("swing", [380, 590, 300], [300, 230, 310]),
      link("upper", [-20, 410, 425], [-20, 650, 430]),
    ]);
    expect(many.message).toContain("6 of the wheel's six freedoms");
    expect(code([])).toBe("constraints");
  });

  it("has a member without extent", () => {
    const others = [ball("arm", [430, 640, 330]), link("lower", [-70, 260, 200], [-70, 660, 205])];
    expect(code([...others, link("upper", [1, 2, 3], [1, 2, 3])])).toBe("zero-length");
    expect(code([hinge("swing", [1, 2, 3], [1, 2, 3])])).toBe("zero-length");
    expect(code([others[0]!, strut("leg", [1, 2, 3], [1, 2, 3])])).toBe("zero-length");
    expect(code([others[0]!, wishbone("w", [0, 300, 200], [-100, 300, 200], [-50, 300, 200])])).toBe("zero-length");
    expect(refusal([others[0]!, others[1]!, link("upper", [1, 2, 3], [1, 2, 3])]).path).toBe("members[2]");
  });

  it("turns about an upright hinge, which does not lift the wheel", () => {
    const error = refusal([hinge("swing", [400, 500, 400], [400, 500, 200])]);
    expect(error.code).toBe("still-moves");
    expect(error.message).toContain(
      "turn about the line through forward 400, out 500, up 300 mm along forward 0, out 0, up 1",
    );
  });

  it("still turns when two of its links are the same line, about a line through its ball joint", () => {
    const members = [
      ball("arm", [430, 640, 330]),
      link("upper", [-20, 410, 425], [-20, 650, 430]),
      link("again", [-20, 410, 425], [-20, 650, 430]),
    ];
    expect(code(members)).toBe("still-moves");
    const jacobian = drawnJacobian(members);
    const movement = freeMovement(jacobian, at.centre)!;
    expect(movement.kind).toBe("turn");
    const velocity = (p: Vec3) => cross(movement.direction, subtract(p, movement.point));
    // the ball stays, the link keeps its length, the wheel keeps its height
    expect(length(velocity([430, 640, 330]))).toBeLessThan(1e-6);
    expect(dot(velocity([-20, 650, 430]), normalise([0, 240, 5]))).toBeCloseTo(0, 8);
    expect(velocity(at.centre)[2]).toBeCloseTo(0, 6);
  });

  it("all but freely turns when two of its links are nearly one line: how far the wheel goes is the library's least singular value", () => {
    const withBeside = (beside_mm: number) => [
      ball("arm", [430, 640, 330]),
      link("upper", [-20, 410, 425], [-20, 650, 430]),
      link("again", [-20, 410, 425 + beside_mm], [-20, 650, 430 + 1.5 * beside_mm]),
    ];
    const members = withBeside(0.02);
    const jacobian = drawnJacobian(members);
    const movement = freeMovement(jacobian, at.centre)!;
    const rows = [0, 1, 2, 3, 4].map((row) =>
      [0, 1, 2, 3, 4, 5].map((column) => jacobian[6 * row + column]! / (column < 3 ? 300 : 1)),
    );
    const least = new SingularValueDecomposition(new Matrix([...rows, [0, 0, 0, 0, 0, 1]])).diagonal.at(-1)!;
    expect(movement.perPlay * least).toBeCloseTo(1, 6);
    const error = refusal(members);
    expect(error.code).toBe("still-moves");
    expect(error.message).toContain(`0.1 mm of play in the joints lets it go some ${Math.round(0.1 / least)} mm`);
    expect(() => compileCorner(corner(withBeside(20), at), "left")).not.toThrow();
  });

  it("still slides when all its links are square to one direction", () => {
    const inPlane = (id: string, y: number, z: number, out: Vec3) => link(id, [out[0], y, z], out);
    const error = refusal([
      inPlane("a", 300, 200, [150, 690, 195]),
      inPlane("b", 300, 230, [-150, 690, 195]),
      inPlane("c", 400, 430, [100, 660, 440]),
      inPlane("d", 420, 400, [-80, 650, 420]),
      inPlane("e", 600, 600, [0, 640, 200]),
    ]);
    expect(error.code).toBe("still-moves");
    expect(error.message).toContain("slide along forward 1, out 0, up 0");
  });

  it("has a link whose bush axis lies along it", () => {
    const members = [
      ball("arm", [430, 640, 330]),
      link("upper", [-20, 410, 425], [-20, 650, 425], undefined, [0, 1, 0]),
      link("lower", [-70, 260, 200], [-70, 660, 205]),
    ];
    expect(refusal(members).code).toBe("wrong-value");
    expect(refusal(members).path).toBe("members[1].bushAxis");
  });

  it("is asked for a powertrain pose that is not there", () => {
    const compiled = compileCorner(corner([hinge("swing", [380, 590, 300], [300, 230, 310])], at), "left");
    expect(() => mountPoses(compiled, compiled.ridePose, "reverse")).toThrow(/no powertrain pose "reverse"/);
  });
});
