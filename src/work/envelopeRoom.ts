import type { PreparedCheck } from "../check/check.ts";
import { sameNumbers } from "../check/shelf.ts";
import { accuracyFor, sweptStates } from "../check/sweptStates.ts";
import { type Envelope, likelyAccuracy, sweptEnvelope } from "../clearance/envelope/envelope.ts";
import type { CollisionTree } from "../clearance/kernel.ts";
import type { SweepBody } from "../clearance/types.ts";
import { StoppedError } from "./outcome.ts";
import type { EnvelopeAnswer, EnvelopeRequest } from "./protocol.ts";

export interface EnvelopeWatch {
  onShare(share: number): void;
  isStopped(): boolean;
  /** Lets messages in; called every few milliseconds. */
  breathe(): Promise<void>;
}

interface KeptEnvelope {
  readonly name: string;
  readonly content: string;
  readonly poses: Float64Array;
  readonly accuracy_mm: number;
  readonly envelope: Envelope;
}

/** Envelopes kept, the last used last; one of a large part takes some 15 MB. */
const MOST_KEPT = 6;
const BREATH_MS = 12;
/** Placements so coarse only tell how large the sweep is. */
const ROUGH_mm = 40;

/**
 * Makes envelopes and keeps them by what they hang on: the body's surface, its placements to the last bit, the accuracy. An edit
 * that touches none of these costs nothing.
 */
export class EnvelopeRoom {
  readonly #treeOf: (body: SweepBody) => CollisionTree;
  readonly #kept: KeptEnvelope[] = [];
  #made = 0;

  constructor(treeOf: (body: SweepBody) => CollisionTree) {
    this.#treeOf = treeOf;
  }

  /** Throws StoppedError when stopped. What is answered is the asker's to keep. */
  async answer(
    { scene, runs, bodies }: PreparedCheck,
    request: Omit<EnvelopeRequest, "document">,
    watch: EnvelopeWatch,
  ): Promise<EnvelopeAnswer> {
    const body = bodies.find(({ key }) => key === request.key);
    const on = request.on === null ? null : bodies.find(({ key }) => key === request.on);
    if (!body || on === undefined) return { kind: "missing" };
    const tree = this.#treeOf(body);
    const rough = sweptStates(scene, runs, body, on, ROUGH_mm);
    const states = sweptStates(scene, runs, body, on, likelyAccuracy(tree, rough.poses, request.accuracy_mm));
    const accuracy_mm = accuracyFor(states, request.accuracy_mm);
    let kept = this.#kept.find(
      (each) =>
        each.content === body.content && each.accuracy_mm === accuracy_mm && sameNumbers(each.poses, states.poses),
    );
    if (!kept) {
      const envelope = await inBreaths(sweptEnvelope(tree, states, accuracy_mm), watch);
      const name = `${body.content} ${++this.#made}`;
      kept = { name, content: body.content, poses: states.poses, accuracy_mm, envelope };
    } else {
      this.#kept.splice(this.#kept.indexOf(kept), 1);
    }
    this.#kept.push(kept);
    if (this.#kept.length > MOST_KEPT) this.#kept.shift();
    if (kept.name === request.have) return { kind: "same" };
    const { positions, normals, indices } = kept.envelope;
    const copy = { positions: positions.slice(), normals: normals.slice(), indices: indices.slice() };
    return { kind: "made", name: kept.name, envelope: { ...kept.envelope, ...copy } };
  }
}

async function inBreaths<T>(work: Generator<number, T>, watch: EnvelopeWatch): Promise<T> {
  let breathed = performance.now();
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    if (watch.isStopped()) throw new StoppedError();
    if (performance.now() - breathed < BREATH_MS) continue;
    watch.onShare(step.value);
    await watch.breathe();
    breathed = performance.now();
  }
}
