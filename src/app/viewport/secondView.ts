import type { Vec3 } from "../../maths/vec3.ts";

/** What a second picture of the same car shows. */
export interface SecondViewSpec {
  /** CSS px of the canvas it is drawn in. */
  readonly width: number;
  readonly height: number;
  readonly at: Vec3;
  /** From what is looked at to the eye, any length. */
  readonly from: Vec3;
  /** Height of the car that the picture's height shows at `at`, mm. */
  readonly span_mm: number;
  /** Keys of bodies between which the touch is: they stay, what stands before them goes. null: shown as in the main picture. */
  readonly pair: readonly string[] | null;
}

/** A canvas that the viewport keeps drawn. */
export interface SecondView {
  set(spec: SecondViewSpec): void;
  remove(): void;
}

interface Entry {
  readonly canvas: HTMLCanvasElement;
  spec: SecondViewSpec | null;
  stale: boolean;
}

/** The second pictures that are wanted, whether or not the 3D picture is there yet. */
export class SecondViews {
  readonly #entries = new Set<Entry>();
  /** Called when one of them wants drawing. */
  onWanted: () => void = () => {};

  add(canvas: HTMLCanvasElement): SecondView {
    const entry: Entry = { canvas, spec: null, stale: true };
    this.#entries.add(entry);
    return {
      set: (spec) => {
        if (entry.spec !== null && sameSpec(entry.spec, spec)) return;
        entry.spec = spec;
        entry.stale = true;
        this.onWanted();
      },
      remove: () => {
        this.#entries.delete(entry);
      },
    };
  }

  /** The car changed: all are out of date. */
  spoil(): void {
    for (const entry of this.#entries) entry.stale = true;
  }

  get anyStale(): boolean {
    return [...this.#entries].some(({ stale, spec }) => stale && spec !== null);
  }

  drawStale(draw: (spec: SecondViewSpec, canvas: HTMLCanvasElement) => void): void {
    for (const entry of this.#entries) {
      if (!entry.stale || entry.spec === null) continue;
      entry.stale = false;
      draw(entry.spec, entry.canvas);
    }
  }
}

function sameSpec(a: SecondViewSpec, b: SecondViewSpec): boolean {
  const same = (x: readonly unknown[], y: readonly unknown[]) => x.length === y.length && x.every((v, i) => v === y[i]);
  return (
    same([a.width, a.height, a.span_mm], [b.width, b.height, b.span_mm]) &&
    same(a.at, b.at) &&
    same(a.from, b.from) &&
    same(a.pair ?? [], b.pair ?? []) &&
    (a.pair === null) === (b.pair === null)
  );
}
