import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { type PreviewServer, preview } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { browserApp } from "./openApp.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const app = browserApp();
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "elbowroom-"));
  cpSync(`${root}dist`, folder, { recursive: true });
});
afterAll(() => rmSync(folder, { recursive: true }));

/** The built app from a folder of its own, by a server that the test may stop. */
async function serve(): Promise<{ server: PreviewServer; address: string }> {
  const server = await preview({
    root: `${root}src/app`,
    configFile: `${root}vite.config.ts`,
    logLevel: "warn",
    build: { outDir: folder },
    preview: { host: "127.0.0.1", port: 0 },
  });
  return { server, address: server.resolvedUrls!.local[0]! };
}

async function untilKept(page: Page): Promise<void> {
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
}

const sceneButton = (page: Page) => page.getByRole("button", { name: /^Scene: / });

describe("without a network", () => {
  it("the whole app opens: isolated, with its workers, its face and its samples", async () => {
    const { server, address } = await serve();
    const { page, faults, context } = await app.open({ keptFrom: address, noPicture: true });
    await untilKept(page);
    // the browser keeps its connections open, and the server would wait for them
    if ("closeAllConnections" in server.httpServer) server.httpServer.closeAllConnections();
    await server.close();
    await page.reload();
    await sceneButton(page).waitFor();
    expect(await page.evaluate(() => [crossOriginIsolated, Boolean(navigator.serviceWorker.controller)])).toEqual([
      true,
      true,
    ]);
    // verdicts come from the worker
    await page
      .getByText(/^Upper link meets sump/)
      .first()
      .waitFor({ timeout: 120_000 });
    expect(await page.evaluate(() => document.fonts.check('16px "Atkinson Hyperlegible Next Variable"'))).toBe(true);
    const samples = page.getByRole("group", { name: "Sample scenes" }).getByRole("menuitem");
    await sceneButton(page).click();
    await samples.last().waitFor();
    const title = (await samples.last().locator("span").first().textContent())!;
    await samples.last().click();
    await page.getByRole("button", { name: `Scene: ${title}` }).waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("a new version", () => {
  it("is told, and loaded only when the builder says so; the project stays", async () => {
    const { server, address } = await serve();
    const { page, context } = await app.open({ keptFrom: address, noPicture: true });
    await untilKept(page);
    // a reload gives the page to the service worker, as every later visit does
    await page.reload();
    await sceneButton(page).waitFor();
    const [html, worker] = [join(folder, "index.html"), join(folder, "sw.js")];
    writeFileSync(html, readFileSync(html, "utf8").replace("<title>Elbowroom<", "<title>Elbowroom, newer<"));
    writeFileSync(
      worker,
      readFileSync(worker, "utf8").replace(
        /(url:"index\.html",revision:")[^"]+|(revision:")[^"]+(",url:"index\.html")/,
        "$1$2newer$3",
      ),
    );
    await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));
    await page.getByText(/new version of Elbowroom lies ready/).waitFor();
    expect(await page.title()).toBe("Elbowroom");
    await page.getByRole("button", { name: "Load it now" }).click();
    await expect.poll(() => page.title()).toBe("Elbowroom, newer");
    await sceneButton(page).waitFor();
    expect(await page.getByText(/new version/).count()).toBe(0);
    await context.close();
    await server.close();
  });

  it("names the app and its pictures for installing", async () => {
    const { server, address } = await serve();
    const manifest = await (await fetch(`${address}manifest.webmanifest`)).json();
    expect(manifest).toMatchObject({ name: "Elbowroom", display: "standalone", start_url: "./", lang: "en" });
    // what browsers ask for before they offer to install: a picture of 192 and one of 512 px (common practice, no source)
    for (const { src, sizes, type } of manifest.icons) {
      const answer = await fetch(address + src);
      expect(answer.headers.get("content-type")).toContain(type);
      if (type !== "image/png") continue;
      // PNG (ISO/IEC 15948): width and height are the first fields of the header chunk, at byte 16 and 20
      const bytes = new DataView(await answer.arrayBuffer());
      expect(`${bytes.getUint32(16)}x${bytes.getUint32(20)}`).toBe(sizes);
    }
    expect(manifest.icons.map(({ sizes }: { sizes: string }) => sizes)).toEqual(
      expect.arrayContaining(["192x192", "512x512"]),
    );
    await server.close();
  });
});
