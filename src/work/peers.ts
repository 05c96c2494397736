import type { MadeTree } from "../clearance/sweepShelf.ts";
import type { SweepNews } from "./sweepDesk.ts";

/** What workers of a pool tell each other past the page. */
export type PeerMessage =
  | { readonly kind: "tree"; readonly tree: MadeTree }
  | { readonly kind: "sweeps"; readonly job: number; readonly news: SweepNews }
  | { readonly kind: "least"; readonly job: number; readonly least_mm: Float64Array };

/** A worker's lines to the others of its pool, by their places. */
export class Peers {
  private readonly lines = new Map<number, MessagePort>();
  private readonly receive: (message: PeerMessage) => void;

  constructor(receive: (message: PeerMessage) => void) {
    this.receive = receive;
  }

  /** The line takes the place of one to a worker that was there before. */
  meet(place: number, line: MessagePort): void {
    this.lines.get(place)?.close();
    line.onmessage = ({ data }: MessageEvent<PeerMessage>) => this.receive(data);
    this.lines.set(place, line);
  }

  tell(place: number, message: PeerMessage): void {
    this.lines.get(place)?.postMessage(message);
  }

  tellAll(message: PeerMessage): void {
    for (const place of this.lines.keys()) this.tell(place, message);
  }
}
