import type { CheckResult } from "../../src/check/result.ts";
import type { MadeTree } from "../../src/clearance/sweepShelf.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { withPoint } from "../../src/scene/points.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { CheckBoard } from "../../src/work/checkBoard.ts";
import { concludeSweeps, Machine, type Watch } from "../../src/work/machine.ts";
import { TreeExchange } from "../../src/work/treeExchange.ts";

/** A turn of the event loop, in which what others sent comes in. */
const breathe = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
export const PATIENT: Watch = { onProgress() {}, isStopped: () => false, breathe };

export function checkAlone(machine: Machine, document: SceneDocument): Promise<CheckResult> {
  return machine.check(machine.prepare(document, new Map()), document.title, PATIENT);
}

/** The scene with a point that the corner hangs on 3 mm farther out. */
export function moved(document: SceneDocument): SceneDocument {
  const { points } = resolveScene(document);
  const name = ["upper.in", "upper.front", "upper.front.in", "arm.outer", "lower.front"].find((each) =>
    points.has(each),
  )!;
  const [x, y, z] = points.get(name)!.at;
  return withPoint(document, name, [x, y + 3, z]);
}

/** Machines that share checks as the workers of the pool do: by a board, with each tree sent to all others. */
export class Crew {
  /** How many trees were made in all. */
  made = 0;
  private readonly machines: readonly Machine[];

  /** `arrives`: whether what one machine sends gets to the others. */
  constructor(size: number, arrives: () => boolean = () => true) {
    const exchanges: TreeExchange[] = Array.from({ length: size }, (_, index) => {
      const send = (tree: MadeTree): void => {
        this.made++;
        for (const other of exchanges) {
          if (other !== exchanges[index] && arrives()) setImmediate(() => other.receive(tree));
        }
      };
      return new TreeExchange(send);
    });
    this.machines = exchanges.map(({ shelf }) => new Machine(shelf));
  }

  async check(document: SceneDocument): Promise<CheckResult> {
    const board = CheckBoard.shared();
    const prepared = this.machines.map((machine) => machine.prepare(document, new Map()));
    const parts = await Promise.all(
      this.machines.map((machine, index) =>
        machine.sweepShare(prepared[index]!, { index, of: this.machines.length, board }, PATIENT),
      ),
    );
    // the last trees are still on their way
    await breathe();
    return concludeSweeps(prepared[0]!, parts.flat(), document.title);
  }
}
