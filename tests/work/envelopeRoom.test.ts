import { describe, expect, it } from "vitest";
import { withPoint } from "../../src/scene/points.ts";
import { EnvelopeRoom, type EnvelopeWatch } from "../../src/work/envelopeRoom.ts";
import { Machine } from "../../src/work/machine.ts";
import { StoppedError } from "../../src/work/outcome.ts";
import { smallScene } from "../app/smallScene.ts";

const WATCH: EnvelopeWatch = { onShare() {}, isStopped: () => false, breathe: () => Promise.resolve() };
const none = new Map();
const wish = { key: "gearbox-mount-ear", on: null, accuracy_mm: 8, have: null } as const;

function room() {
  const machine = new Machine();
  return { machine, envelopes: new EnvelopeRoom((body) => machine.treeOf(body)) };
}

describe("the envelope room", () => {
  it("sends nothing again where an edit changed nothing of the sweep, and the new one where it did", async () => {
    const { machine, envelopes } = room();
    const first = await envelopes.answer(machine.prepare(smallScene(), none), wish, WATCH);
    if (first.kind !== "made") throw new Error(first.kind);
    expect(first.envelope.indices.length).toBeGreaterThan(1000);
    const elsewhere = withPoint(smallScene(), "toe.in", [-150, 335, 230]);
    const again = await envelopes.answer(machine.prepare(elsewhere, none), { ...wish, have: first.name }, WATCH);
    expect(again.kind).toBe("same");
    const poses = [{ id: "pulling", about: [150, 0, 400], axis: [0, 1, 0], angle_deg: 5 }] as const;
    const rocked = smallScene({ powertrain: { poses } });
    const third = await envelopes.answer(machine.prepare(rocked, none), { ...wish, have: first.name }, WATCH);
    if (third.kind !== "made") throw new Error(third.kind);
    expect(third.name).not.toBe(first.name);
    const size = (positions: Float32Array) => Math.max(...positions.filter((_, i) => i % 3 === 2));
    expect(size(third.envelope.positions)).not.toBeCloseTo(size(first.envelope.positions), 0);
  });

  it("answers with the same surface after it gave the last one away", async () => {
    const { machine, envelopes } = room();
    const prepared = machine.prepare(smallScene(), none);
    const first = await envelopes.answer(prepared, wish, WATCH);
    const second = await envelopes.answer(prepared, wish, WATCH);
    expect(second).toEqual(first);
    if (first.kind !== "made" || second.kind !== "made") throw new Error("not made");
    expect(second.envelope.positions.buffer).not.toBe(first.envelope.positions.buffer);
  });

  it("stops when it is not wanted any more, and tells of a part that is not there", async () => {
    const { machine, envelopes } = room();
    const prepared = machine.prepare(smallScene(), none);
    const stopped = envelopes.answer(prepared, wish, { ...WATCH, isStopped: () => true });
    await expect(stopped).rejects.toThrow(StoppedError);
    expect(await envelopes.answer(prepared, { ...wish, key: "nobody" }, WATCH)).toEqual({ kind: "missing" });
    expect(await envelopes.answer(prepared, { ...wish, on: "nobody" }, WATCH)).toEqual({ kind: "missing" });
  });
});
