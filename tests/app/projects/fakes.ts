import "fake-indexeddb/auto";
import { databaseDoor } from "../../../src/app/projects/database.ts";
import { createDesk, type DeskParts } from "../../../src/app/projects/desk.ts";
import type { Mark, MarkPlace } from "../../../src/app/projects/mark.ts";
import type { Hold, TabMessage, Tabs } from "../../../src/app/projects/tabs.ts";
import { createAppStore } from "../../../src/app/store/store.ts";
import { withPoint } from "../../../src/scene/points.ts";

/** A browser with any number of tabs: locks and messages as the browser gives them, a database of its own. */
export function fakeBrowser(name: string = crypto.randomUUID()) {
  const holders = new Map<string, { readonly hold: Hold; lose(): void }>();
  const hearers = new Set<{ hear(message: TabMessage): void }>();
  let marked: Mark | null = null;
  const mark: MarkPlace = {
    read: () => marked,
    write: (next) => {
      marked = next;
    },
  };

  const give = (id: string): Hold => {
    let lose = (): void => {};
    const lost = new Promise<void>((done) => {
      lose = done;
    });
    const hold = { release: () => void (holders.get(id)?.hold === hold && holders.delete(id)), lost };
    holders.set(id, { hold, lose });
    return hold;
  };

  const tabs = (): Tabs => {
    let mine: { hear(message: TabMessage): void } | null = null;
    const tell = (message: TabMessage): void => {
      for (const other of hearers) if (other !== mine) queueMicrotask(() => other.hear(structuredClone(message)));
    };
    return {
      claim: async (id) => (holders.has(id) ? null : give(id)),
      async takeOver(id) {
        tell({ about: "asked", id });
        for (let i = 0; i < 50 && holders.has(id); i++) await new Promise((done) => setTimeout(done, 2));
        holders.get(id)?.lose();
        return give(id);
      },
      tell,
      listen(hear) {
        const hearer = { hear };
        mine = hearer;
        hearers.add(hearer);
        return () => hearers.delete(hearer);
      },
    };
  };

  return {
    name,
    mark,
    holders,
    /** A page of the app. */
    async tab(wanted: string | null = null, over: Partial<DeskParts> = {}) {
      const store = createAppStore();
      const door = databaseDoor(name);
      const desk = createDesk({ store, door, tabs: tabs(), mark, takeOld: async () => {}, ...over });
      const found = await desk.start(wanted);
      return { store, desk, door, found, id: () => desk.state.getState().openId! };
    },
  };
}

export type Tab = Awaited<ReturnType<ReturnType<typeof fakeBrowser>["tab"]>>;

/** One step: the upper outer joint up by a tenth. */
export function lift({ store }: Pick<Tab, "store">, stepName = "upper.out up"): void {
  const document = store.getState().document!;
  const [x, y, z] = document.points["upper.out"] as [number, number, number];
  store.getState().edit(stepName, withPoint(document, "upper.out", [x, y, z + 0.1]));
}

/** The tab is gone, between one moment and the next: nothing it would have done is done. */
export function kill({ desk }: Pick<Tab, "desk">): void {
  desk.stop();
}

export async function until(isSo: () => boolean): Promise<void> {
  for (let i = 0; i < 500 && !isSo(); i++) await new Promise((done) => setTimeout(done, 2));
  if (!isSo()) throw new Error("it never came to be so");
}
