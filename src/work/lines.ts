import { expose, transferHandlers, wrap } from "comlink";

type Hearing = (...told: never[]) => unknown;

/**
 * A function that workers may call where a proxy of comlink's would be given away: each worker that gets it has a line of its own,
 * and whoever made them closes them. A proxy's line is closed when the collector of the worker finds nobody holding it, which
 * under little work is hours later, and all that the function holds stays with it.
 */
export class Line<F extends Hearing> {
  private readonly hear: F;
  private readonly near: MessagePort[] = [];

  constructor(hear: F) {
    this.hear = hear;
  }

  /** What is given to a worker, which gets a function like it that answers with a promise. */
  get far(): F {
    return this as unknown as F;
  }

  /** Opens a line, whose other end is returned. */
  open(): MessagePort {
    const { port1, port2 } = new MessageChannel();
    expose(this.hear, port1);
    this.near.push(port1);
    return port2;
  }

  /** What is told from now on is not heard any more, and not answered. */
  close(): void {
    for (const port of this.near.splice(0)) port.close();
  }
}

/** What comes of the work that is given the far end of a line, which is closed when the work ends. */
export async function withLine<F extends Hearing, T>(hear: F, work: (far: F) => Promise<T>): Promise<T> {
  const line = new Line(hear);
  try {
    return await work(line.far);
  } finally {
    line.close();
  }
}

transferHandlers.set("line", {
  canHandle: (value): value is Line<Hearing> => value instanceof Line,
  serialize(line: Line<Hearing>) {
    const port = line.open();
    return [port, [port]];
  },
  deserialize: (port: MessagePort) => wrap(port),
});
