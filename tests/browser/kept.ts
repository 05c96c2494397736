import type { Page } from "playwright-core";

/** Which step of the only project that is not deleted the browser's database holds as the shown one: a save follows an edit, but not in the same moment. */
export async function keptStep(page: Page): Promise<number> {
  const projects = (await kept(page, "projects")) as { at: number; deleted_ms: number | null }[];
  return projects.find(({ deleted_ms }) => deleted_ms === null)!.at;
}

/** What the browser's database holds of how the builder likes to look; undefined: nothing yet. */
export async function keptSession(page: Page): Promise<Readonly<Record<string, unknown>> | undefined> {
  const settings = (await kept(page, "settings")) as unknown[];
  return settings.find((value): value is Record<string, unknown> => typeof value === "object" && value !== null);
}

function kept(page: Page, store: "projects" | "settings"): Promise<unknown[]> {
  return page.evaluate(
    (name) =>
      new Promise<unknown[]>((resolve, reject) => {
        const opening = indexedDB.open("elbowroom-projects");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const reading = opening.result.transaction(name).objectStore(name).getAll();
          reading.onerror = () => reject(reading.error);
          reading.onsuccess = () => {
            opening.result.close();
            resolve(reading.result);
          };
        };
      }),
    store,
  );
}
