import { parentPort } from "node:worker_threads";
import { PlaceSearch } from "../../src/clearance/placeSearch.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import { type Fit, PlacesCorner } from "./placesCorner.ts";
import { REQUIRED_mm } from "./syntheticCorner.ts";

/**
 * The poses alone; or with them each place's worst clearance, an overlap told as 0; the same with its depth; or every pair's
 * smallest clearance up to a cap, an overlap told as 0.
 */
export type Question = "poses" | "worst" | "depth" | "pairs";

export const CAP_mm = 25;

/** A run of places to go through. */
export interface Share {
  readonly question: Question;
  readonly from: number;
  readonly to: number;
}

export interface ShareAnswer {
  /** How many distances were measured. */
  readonly asked: number;
  /** One number a place: the worst clearance (as much is required of every pair), or how many pairs are below the cap. */
  readonly told: Float64Array;
}

/** A searcher of its own trees, as each thread has one. */
export class Searcher {
  readonly corner: PlacesCorner;
  private readonly shelf = new TreeShelf();

  constructor(fit: Fit) {
    this.corner = new PlacesCorner(fit);
    this.search();
  }

  run({ question, from, to }: Share): ShareAnswer {
    const { corner } = this;
    const search = this.search();
    const told = new Float64Array(to - from);
    const smallest = new Float64Array(corner.pairs.length);
    for (let index = from; index < to; index++) {
      const place = corner.posesAt(index);
      const link = question === "poses" ? null : corner.linkAt(index);
      if (link !== null) search.redraw(link);
      if (question === "worst" || question === "depth") {
        const { margin_mm } = search.worst(place, question === "worst" ? { above_mm: -REQUIRED_mm } : {});
        told[index - from] = margin_mm + REQUIRED_mm;
      } else if (question === "pairs") {
        search.everyPair(place, smallest, { below_mm: CAP_mm, above_mm: 0 });
        told[index - from] = smallest.reduce((near, value) => (value < CAP_mm ? near + 1 : near), 0);
      }
    }
    return { asked: search.asked, told };
  }

  readonly search = (): PlaceSearch => {
    const { bodies, pairs, frameCount, stateCount } = this.corner;
    return new PlaceSearch(this.shelf, bodies, pairs, frameCount, stateCount);
  };
}

let searcher: Searcher | null = null;

/** First how the link is fitted; then shares, each answered. */
parentPort?.on("message", (message: Fit | Share) => {
  if (typeof message === "string") {
    searcher = new Searcher(message);
    parentPort!.postMessage(null);
  } else {
    parentPort!.postMessage(searcher!.run(message));
  }
});
