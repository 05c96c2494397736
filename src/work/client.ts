import type { CheckResult } from "../check/result.ts";
import { CheckBoard } from "./checkBoard.ts";
import type { DrawnBody } from "./drawn.ts";
import { Hand } from "./hand.ts";
import { Line, withLine } from "./lines.ts";
import { MeshStore } from "./meshStore.ts";
import { stoppedError, unwrap, WorkError } from "./outcome.ts";
import type { FileRoom, Job, MeshKeeper, StudyRoom, Workshop } from "./protocol.ts";
import type { RoomFrame } from "./roomShare.ts";
import { canShareMemory } from "./sharedMemory.ts";
import { Signals } from "./signals.ts";
import { heardResult, type NamedResult, type ToldProgress, type ToldResult } from "./toldResult.ts";

/** More workers than this gain nothing: each prepares the scene for itself, but for its trees. */
const MOST_WORKERS = 4;

type Shape = Pick<DrawnBody, "solid" | "drawn">;

/**
 * The pool of workers behind the app. A worker that fails for a reason of its own, or that is deaf to a stop, is replaced
 * when it is next needed; its job is tried once more on the new one and then rejects with WorkError.
 * @param onAnew hears why a job is done anew by another worker
 */
export function createWorkshop(
  size = poolSize(),
  onAnew: (why: string) => void = () => {},
): Workshop & StudyRoom & FileRoom & MeshKeeper {
  const areShared = canShareMemory();
  const signals = areShared ? Signals.shared() : new Signals();
  const hands: (Hand | null)[] = Array.from({ length: size + 2 }, () => null);
  /**
   * Of the workers that share a check. So that no check waits for a study, one beyond them is at those that take long, and one more
   * at what is told while the builder looks.
   */
  const places = Array.from({ length: size }, (_, place) => place);
  const meshes = new MeshStore(hands);
  let lastJob = 0;
  /** What the worker that leads told last; what of it still holds is told by its place. */
  let newest: NamedResult | null = null;
  /** Of the bodies built last, by content: only what an edit changed crosses from the worker. */
  let shapes: ReadonlyMap<string, Shape> = new Map();

  function handAt(place: number): Hand {
    return hands[place] ?? hire(place);
  }

  function hire(place: number): Hand {
    const hand = new Hand(place, signals, areShared, () => {
      if (hands[place] === hand) hands[place] = null;
    });
    for (const other of hands) if (other) hand.meet(other);
    hands[place] = hand;
    return hand;
  }

  /** Every attempt at a job has a number of its own, so that what is left of the first does not pass for the second. */
  function start<T>(work: (job: number) => Promise<T>): Job<T> {
    let job = 0;
    let isStopped = false;
    const attempt = (): Promise<T> => {
      job = ++lastJob;
      return work(job);
    };
    const drop = (): void => {
      signals.stop(job);
      for (const hand of hands) hand?.tellStopped(job);
    };
    let reject: (error: DOMException) => void = () => {};
    const stopping = new Promise<never>((_, rejects) => {
      reject = rejects;
    });
    stopping.catch(() => {});
    const tried = attempt().catch((error: unknown) => {
      // what the other workers still do for it is not wanted any more
      drop();
      if (!(error instanceof WorkError) || isStopped) throw error;
      onAnew(error.message);
      return attempt();
    });
    return {
      done: Promise.race([tried, stopping]),
      stop() {
        isStopped = true;
        drop();
        for (const hand of hands) hand?.endIfDeafTo(job);
        reject(stoppedError());
      },
    };
  }

  return {
    build: (document, files) =>
      start(async (job) => {
        const hand = handAt(0);
        const names = await meshes.supply(hand, job, document, files);
        const have = shapes;
        const built = unwrap(await hand.ask(job, (shell) => shell.build(job, document, names, new Set(have.keys()))));
        const bodies = built.map(({ solid, drawn, ...rest }) => ({
          ...rest,
          ...(solid ? shapeOf(solid, drawn) : have.get(rest.content)!),
        }));
        shapes = new Map(bodies.map(({ content, solid, drawn }) => [content, shapeOf(solid, drawn)]));
        return bodies;
      }),

    check: (document, files, onProgress) =>
      start(async (job): Promise<CheckResult> => {
        const pairsDone = places.map(() => 0);
        const base = newest;
        const hear = (told: ToldResult): CheckResult => {
          newest = heardResult(told, base);
          return newest.result;
        };
        const report =
          (place: number) =>
          ({ verdicts, soFar, ...progress }: ToldProgress): void => {
            pairsDone[place] = progress.pairsDone;
            const sum = pairsDone.reduce((sum, count) => sum + count);
            onProgress({
              ...progress,
              pairsDone: sum,
              ...(soFar ? { soFar: heardResult(soFar, base).result } : {}),
              ...(verdicts ? { verdicts: hear(verdicts) } : {}),
            });
          };
        const board = areShared && size > 1 ? CheckBoard.shared().memory : null;
        const crew = places.map(handAt);
        // the lead tells what others found after its own share is done
        const lines = places.map((place) => new Line(report(place)));
        try {
          const shares = await Promise.all(
            crew.map(async (hand, place) => {
              const names = await meshes.supply(hand, job, document, files);
              const share = { document, names, of: size, board, have: base?.name ?? null };
              unwrap(await hand.ask(job, (shell) => shell.sweep(job, share, lines[place]!.far)));
              return share;
            }),
          );
          const concluded = crew[0]!.ask(job, (shell) => shell.conclude(job, shares[0]!));
          // what a worker that dies now had to tell the lead may be lost
          const [outcome] = await Promise.all(crew.map((hand) => hand.whileAlive(concluded)));
          return hear(unwrap(outcome!));
        } finally {
          for (const line of lines) line.close();
        }
      }),

    patch: (request, files) =>
      start(async (job) => {
        const hand = handAt(size - 1);
        const names = await meshes.supply(hand, job, request.document, files);
        return unwrap(await hand.ask(job, (shell) => shell.patch(job, request, names)));
      }),

    envelope: (request, files, onProgress) =>
      start(async (job) => {
        const hand = handAt(size - 1);
        const names = await meshes.supply(hand, job, request.document, files);
        return withLine(onProgress, async (told) =>
          unwrap(await hand.ask(job, (shell) => shell.envelope(job, request, names, told))),
        );
      }),

    gaps: (request, files) =>
      start(async (job) => {
        const hand = handAt(size - 1);
        const names = await meshes.supply(hand, job, request.document, files);
        return unwrap(await hand.ask(job, (shell) => shell.gaps(job, request, names)));
      }),

    picture: (request, files) =>
      start(async (job) => {
        const hand = handAt(size - 1);
        const names = await meshes.supply(hand, job, request.document, files);
        return unwrap(await hand.ask(job, (shell) => shell.picture(job, request, names)));
      }),

    model: (request, files) =>
      start(async (job) => {
        const hand = handAt(size - 1);
        const names = await meshes.supply(hand, job, request.document, files);
        return unwrap(await hand.ask(job, (shell) => shell.model(job, request, names)));
      }),

    loads: (document, pose) =>
      start(async (job) => {
        const hand = handAt(size - 1);
        return unwrap(await hand.ask(job, (shell) => shell.loads(job, document, pose)));
      }),

    gear: (document, spare_mm) =>
      start(async (job) => {
        const hand = handAt(size - 1);
        return unwrap(await hand.ask(job, (shell) => shell.gear(job, document, spare_mm)));
      }),

    room: (question, files, { onFrame, onNews }) =>
      start(async (job) => {
        let isFramed = false;
        const frameOnce = (frame: RoomFrame): void => {
          if (!isFramed) onFrame(frame);
          isFramed = true;
        };
        const crew = [...places, size].map(handAt);
        await Promise.all(
          crew.map(async (hand, index) => {
            const names = await meshes.supply(hand, job, question.document, files);
            const share = { index, of: crew.length };
            // a worker waits for answers on its lines: they are its own, open until it has told its end
            await withLine(frameOnce, (framed) =>
              withLine(onNews, async (told) =>
                unwrap(await hand.ask(job, (shell) => shell.room(job, question, names, share, framed, told))),
              ),
            );
          }),
        );
      }),

    readyRoom: (question, files) =>
      start(async (job) => {
        const hand = handAt(size);
        const names = await meshes.supply(hand, job, question.document, files);
        return unwrap(await hand.ask(job, (shell) => shell.readyRoom(job, question, names)));
      }),

    moves: (question, files, onProgress) =>
      start(async (job) => {
        const hand = handAt(size);
        const names = await meshes.supply(hand, job, question.document, files);
        return withLine(onProgress, async (told) =>
          unwrap(await hand.ask(job, (shell) => shell.moves(job, question, names, told))),
        );
      }),

    jig: (question, files, onProgress) =>
      start(async (job) => {
        const hand = handAt(question.withClearances ? size : size + 1);
        const names = await meshes.supply(hand, job, question.document, files);
        return withLine(onProgress, async (told) =>
          unwrap(await hand.ask(job, (shell) => shell.jig(job, question, names, told))),
        );
      }),

    corrections: (document, wanted) =>
      start(async (job) => {
        const hand = handAt(size + 1);
        return unwrap(await hand.ask(job, (shell) => shell.corrections(job, document, wanted)));
      }),

    asBuilt: (question, files) =>
      start(async (job) => {
        const hand = handAt(size);
        const names = await meshes.supply(hand, job, question.document, files);
        return unwrap(await hand.ask(job, (shell) => shell.asBuilt(job, question, names)));
      }),

    weldPull: (request) =>
      start(async (job) => {
        const hand = handAt(size + 1);
        return unwrap(await hand.ask(job, (shell) => shell.weldPull(job, request)));
      }),

    together: (question, files) =>
      start(async (job) => {
        const hand = handAt(size);
        const names = await meshes.supply(hand, job, question.document, files);
        return unwrap(await hand.ask(job, (shell) => shell.together(job, question, names)));
      }),

    service: (question, files, onProgress) =>
      start(async (job) => {
        const hand = handAt(size);
        const names = await meshes.supply(hand, job, question.document, files);
        return withLine(onProgress, async (told) =>
          unwrap(await hand.ask(job, (shell) => shell.service(job, question, names, told))),
        );
      }),

    keepMesh: (bytes, file, reading, solid) => meshes.keep(bytes, file, reading, solid),
  };
}

function poolSize(): number {
  return Math.max(1, Math.min(MOST_WORKERS, (navigator.hardwareConcurrency || 2) - 1));
}

function shapeOf(solid: Shape["solid"], drawn: Shape["drawn"]): Shape {
  return drawn ? { solid, drawn } : { solid };
}
