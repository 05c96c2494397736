import { prepareCheck } from "../../src/check/check.ts";
import { poseOfMotion } from "../../src/clearance/motion.ts";
import { contactPatch, worstPatch } from "../../src/clearance/patch.ts";
import { sweepPair } from "../../src/clearance/sweep.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import type { PairSweep } from "../../src/clearance/types.ts";
import { POSE_SIZE } from "../../src/maths/pose.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { processor_ms } from "./rounds.ts";

/** Sweeps of a corner with casings, tubes and plates around it, both sides, three poses; patches of the pairs that touch. */
export async function benchClearance(): Promise<string[]> {
  const prepared = prepareCheck(resolveScene(fullCorner()));
  const bodies = new Map(prepared.bodies.map((body) => [body.key, body]));
  const bodyOf = (key: string) => bodies.get(key)!;
  const triangles = prepared.bodies.reduce((sum, { solid }) => sum + solid.indices.length / 3, 0);
  const shelf = new TreeShelf();
  let states = 0;
  const count = { isCancelled: () => states++ < 0 };
  const sweepThemAll = (): PairSweep[] => {
    states = 0;
    return prepared.pairs.map(({ sweep }) => sweepPair(shelf, bodyOf(sweep.a), bodyOf(sweep.b), sweep, count));
  };
  const [, trees_ms] = timed(() => prepared.bodies.map((body) => shelf.prepare(body)));
  const [sweeps, cold_ms] = timed(sweepThemAll);
  let warm_ms = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 4; i++) warm_ms = Math.min(warm_ms, timed(sweepThemAll)[1]);

  const touching = prepared.pairs.flatMap(({ sweep }, i) => {
    const { clearance_mm, at } = sweeps[i]!;
    const variant = sweep.variants.find(({ pose }) => pose === at.pose);
    return variant && clearance_mm < sweep.required_mm ? [{ sweep, variant, worst_mm: at.travel_mm }] : [];
  });

  const single = () =>
    touching.map(({ sweep, variant, worst_mm }) => {
      const poseOfA = poseOfMotion(variant.a, worst_mm, new Float64Array(POSE_SIZE));
      const poseOfB = poseOfMotion(variant.b, worst_mm, new Float64Array(POSE_SIZE));
      return contactPatch(shelf, bodyOf(sweep.a), bodyOf(sweep.b), sweep, poseOfA, poseOfB);
    });
  const whole = () =>
    touching.map(({ sweep, variant, worst_mm }) =>
      worstPatch(shelf, bodyOf(sweep.a), bodyOf(sweep.b), sweep, variant, worst_mm),
    );
  for (let i = 0; i < 3; i++) single();
  const [patches, single_ms] = timed(single);
  whole();
  const [, whole_ms] = timed(whole);
  const pieces = patches.reduce((sum, { a, b }) => sum + (a.indices.length + b.indices.length) / 3, 0);
  const each = (ms: number): string => (ms / Math.max(1, touching.length)).toFixed(1);
  return [
    `${prepared.bodies.length} bodies, ${triangles} triangles, ${prepared.pairs.length} pairs; trees ${trees_ms.toFixed(0)} ms`,
    `sweep: first ${cold_ms.toFixed(0)} ms, warm ${warm_ms.toFixed(0)} ms, ${states} states, ${((1000 * warm_ms) / states).toFixed(0)} µs a state`,
    `patches of ${touching.length} pairs, ${pieces} triangles: one state ${each(single_ms)} ms, whole travel ${each(whole_ms)} ms a pair`,
  ];
}

function timed<T>(work: () => T): [T, number] {
  const start = processor_ms();
  const result = work();
  return [result, processor_ms() - start];
}

function fullCorner(): SceneDocument {
  const balls = (diameter_mm: number, ...places: [number, number, number][]) =>
    places.map((at) => ({ at, diameter_mm }));
  const arc = (radius: number, back: boolean): [number, number][] =>
    Array.from({ length: 40 }, (_, i) => {
      const angle = (Math.PI * (back ? 39 - i : i)) / 39;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    });
  return storyCorner({
    sides: "both",
    tessellation_mm: 0.1,
    bodies: [
      { id: "sump-rail", on: "powertrain", shape: { kind: "box", size_mm: [200, 60, 14], at: [20, 425, 469] } },
      {
        id: "casing",
        on: "powertrain",
        shape: {
          kind: "hull",
          spheres: balls(160, [25, 220, 345], [25, -220, 345], [200, 100, 400], [200, -100, 400]),
        },
      },
      {
        id: "exhaust",
        on: "powertrain",
        role: "exhaust",
        shape: {
          kind: "tube",
          path: [
            [200, 200, 500],
            [100, 380, 520],
            [-150, 420, 400],
            [-350, 420, 380],
          ],
          diameter_mm: 60,
          bend_mm: 120,
        },
      },
      {
        id: "rail",
        on: "chassis",
        mirror: true,
        shape: {
          kind: "tube",
          path: [
            [600, 500, 250],
            [300, 470, 250],
            [100, 460, 620],
            [-200, 460, 640],
            [-350, 460, 400],
          ],
          diameter_mm: 50,
          bend_mm: 100,
        },
      },
      {
        id: "bracket",
        on: "chassis",
        mirror: true,
        shape: {
          kind: "group",
          parts: [
            { kind: "box", size_mm: [6, 60, 60], at: [0, 400, 425] },
            { kind: "box", size_mm: [6, 60, 60], at: [-40, 400, 425] },
            { kind: "box", size_mm: [60, 6, 60], at: [-20, 372, 425] },
          ],
        },
      },
      {
        id: "arch",
        on: "chassis",
        mirror: true,
        shape: {
          kind: "prism",
          outline: [...arc(400, false), ...arc(380, true)],
          thickness_mm: 250,
          origin: [0, 880, 330],
          u: [1, 0, 0],
          v: [0, 0, 1],
        },
      },
      {
        id: "upright",
        on: "carrier",
        shape: { kind: "hull", spheres: balls(50, [0, 690, 300], [-20, 660, 430], [-70, 665, 205], [100, 680, 310]) },
      },
    ],
  });
}
