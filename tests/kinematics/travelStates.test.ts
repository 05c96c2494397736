import { describe, expect, it } from "vitest";
import { type Corner, compileCorner } from "../../src/kinematics/corner.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { TravelStates } from "../../src/kinematics/travelStates.ts";
import { POSE_SIZE } from "../../src/maths/pose.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { InputError } from "../../src/scene/error.ts";
import type { Member } from "../../src/scene/scene.ts";
import { bar, corner, link, wheel, wishbone } from "./corners.ts";
import { randomMembers, randomOf, wildMembers } from "./random.ts";

const at = wheel([0, 740, 300], 0.15, -1);
const RANGE = { bump_mm: 80, droop_mm: 70, step_mm: 2.5 };
const TRAVELS = Array.from({ length: 21 }, (_, i) => -70 + 7.5 * i);
const PLACES = 60;
const SEED = 31;

/** The inboard ends of links and wishbones and the points of everything else moved by so much, each in its own direction. */
function moved(members: readonly Member[], random: () => number, size: number): Member[] {
  const away = (p: Vec3): Vec3 => [
    p[0] + size * (random() - 0.5),
    p[1] + size * (random() - 0.5),
    p[2] + size * (random() - 0.5),
  ];
  return members.map((member): Member => {
    if (member.kind === "link") {
      const inboard = away(member.inboard);
      return { ...member, inboard, inboardMounted: inboard };
    }
    if (member.kind === "wishbone") {
      const front = away(member.front);
      return { ...member, front, frontMounted: front };
    }
    return member;
  });
}

/** Null where the wheel is loose: random members may be. */
function compiledIfHeld(members: readonly Member[]): Corner | null {
  try {
    return compileCorner(corner(members, at), "left");
  } catch (error) {
    if (error instanceof InputError && error.code === "still-moves") return null;
    throw error;
  }
}

/** The states that continuation from ride height reaches: the ones within the run, and their poses. */
function solvedAnew(members: readonly Member[], more: Parameters<typeof corner>[2] = {}) {
  const compiled = compileCorner(corner(members, at, more), "left");
  const { from_mm, to_mm } = runTravel(compiled, RANGE);
  const poses = TRAVELS.map((travel) => compiled.solver.solve(travel).pose);
  return {
    first: TRAVELS.findIndex((travel) => travel >= from_mm),
    end: TRAVELS.findLastIndex((t) => t <= to_mm) + 1,
    poses,
  };
}

function expectSame(states: TravelStates, anew: ReturnType<typeof solvedAnew>, name: string): void {
  expect([states.first, states.end], name).toEqual([anew.first, anew.end]);
  for (let i = states.first; i < states.end; i++) {
    for (let k = 0; k < POSE_SIZE; k++) {
      // residuals are below 1e-9 mm; a pose may be off by some tens of that
      const off = Math.abs(states.carrier[POSE_SIZE * i + k]! - anew.poses[i]![k]!);
      expect(off, `${name}, travel ${TRAVELS[i]}`).toBeLessThan(1e-7);
    }
  }
}

describe("poses at the same travels in one corner after another", () => {
  it.each([...randomMembers(randomOf(SEED)).keys()])("are those of each corner solved from ride height (%s)", (mix) => {
    const random = randomOf(SEED);
    let members: readonly Member[] = randomMembers(random).get(mix)!;
    const states = new TravelStates(TRAVELS);
    for (let place = 0; place < PLACES; place++) {
      members = moved(members, random, place % 20 === 19 ? 40 : 2);
      states.solve(compileCorner(corner(members, at), "left"));
      expectSame(states, solvedAnew(members), `seed ${SEED}, place ${place}`);
    }
  });

  it.each(["five links", "two wishbones and a link"])("are so with every part keeping its length (%s)", (mix) => {
    const random = randomOf(SEED);
    const drawn = randomMembers(random).get(mix)!;
    const states = new TravelStates(TRAVELS);
    let mounted: readonly Member[] = drawn;
    for (let place = 0; place < PLACES; place++) {
      mounted = moved(mounted, random, 1);
      const members = drawn.map((member, i): Member => {
        const now = mounted[i]!;
        if (member.kind === "link" && now.kind === "link") return { ...member, inboardMounted: now.inboard };
        if (member.kind === "wishbone" && now.kind === "wishbone") return { ...member, frontMounted: now.front };
        return member;
      });
      states.solve(compileCorner(corner(members, at), "left"));
      expectSame(states, solvedAnew(members), `seed ${SEED}, place ${place}`);
    }
  });

  it("stop where corners of any proportions lock", () => {
    let locks = 0;
    for (let seed = 1; seed <= 12; seed++) {
      for (const [mix, wild] of wildMembers(seed)) {
        const random = randomOf(seed);
        const states = new TravelStates(TRAVELS);
        let members: readonly Member[] = wild;
        for (let place = 0; place < 6; place++) {
          members = moved(members, random, 2);
          const compiled = compiledIfHeld(members);
          if (compiled === null) break;
          states.solve(compiled);
          const anew = solvedAnew(members);
          if (anew.first > 0 || anew.end < TRAVELS.length) locks++;
          expectSame(states, anew, `seed ${seed}, ${mix}, place ${place}`);
        }
      }
    }
    expect(locks).toBeGreaterThan(100);
  });

  it("stop where the anti-roll bar's drop link does not reach, and go on where it does again", () => {
    const members = [
      wishbone("upper", [90, 420, 430], [-90, 420, 430], [-5, 660, 440]),
      wishbone("lower", [150, 300, 200], [-130, 300, 200], [5, 690, 195]),
      link("toe", [-150, 330, 225], [-150, 670, 230]),
    ];
    const states = new TravelStates(TRAVELS);
    const reach: number[] = [];
    for (const armLength of [170, 90, 60, 45, 60, 90, 170]) {
      const antiRollBar = bar([-120 - armLength, 470, 290], [0, 1, 0], [-120, 470, 290], [-110, 480, 240]);
      states.solve(compileCorner(corner(members, at, { antiRollBar }), "left"));
      expectSame(states, solvedAnew(members, { antiRollBar }), `arm ${armLength}`);
      reach.push(states.end - states.first);
    }
    expect(Math.min(...reach)).toBeLessThan(TRAVELS.length);
    expect(reach[6]).toBe(TRAVELS.length);
  });
});
