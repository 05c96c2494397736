import type { Page } from "playwright-core";

/** Which step of the only project the browser's database holds as the shown one: a save follows an edit, but not in the same moment. */
export function keptStep(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open("elbowroom-projects");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const reading = opening.result.transaction("projects").objectStore("projects").getAll();
          reading.onerror = () => reject(reading.error);
          reading.onsuccess = () => {
            opening.result.close();
            resolve(reading.result[0].at);
          };
        };
      }),
  );
}
