import type { Page } from "playwright-core";

export interface ChosenFile {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

export async function openScans(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Points & parts" }).click();
  await page.getByRole("group", { name: "List" }).getByRole("button", { name: "Parts" }).click();
  await page.getByRole("button", { name: "Bring in a scan" }).click();
}

export async function choose(page: Page, file: ChosenFile): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: "Choose a file…" }).click();
  await (await chooser).setFiles(file);
}
