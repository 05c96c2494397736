import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { createServer, type ViteDevServer } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { mapRoom } from "../../src/studies/room/room.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { roomOf } from "../work/roomOf.ts";
import { launchApart } from "./openApp.ts";
import type { PoolPage } from "./poolPage.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const PAGE = '<!doctype html><title>Pool</title><script type="module" src="/tests/browser/poolPage.ts"></script>';

/** Serves the pool's source with the project's own headers, or with none. */
function serve(headers?: Record<string, string>): Promise<ViteDevServer> {
  return createServer({
    root,
    configFile: `${root}vite.config.ts`,
    logLevel: "warn",
    cacheDir: `${root}.cache/vite`,
    // all that is imported is made of modules: nothing to bundle first, and no reload when it is found
    optimizeDeps: { noDiscovery: true, include: [] },
    server: { port: 0, hmr: false, watch: null, ...(headers ? { headers } : {}) },
    plugins: [
      {
        name: "pool-page",
        configureServer: ({ middlewares, config }) => {
          middlewares.use("/pool.html", (_, response) => {
            response.writeHead(200, { ...config.server.headers, "Content-Type": "text/html" }).end(PAGE);
          });
        },
      },
    ],
  });
}

let browser: Browser;
beforeAll(async () => {
  browser = await launchApart();
});
afterAll(() => browser?.close());

const NONE = {
  "Cross-Origin-Opener-Policy": "unsafe-none",
  "Cross-Origin-Embedder-Policy": "unsafe-none",
};

describe.each([
  ["that may share memory", true, undefined],
  ["that may not share memory", false, NONE],
])("the pool on a page %s", (_, isIsolated, headers) => {
  let server: ViteDevServer;
  let page: Page;
  beforeAll(async () => {
    server = await serve(headers);
    await server.listen();
    page = await browser.newPage();
    // the source comes file by file, made ready as it is asked for
    page.setDefaultTimeout(300_000);
    await page.goto(`${server.resolvedUrls!.local[0]}pool.html`);
    await page.waitForFunction(() => "pool" in window);
  }, 300_000);
  afterAll(async () => {
    await page?.close();
    await server?.close();
  });
  const call = <K extends keyof PoolPage>(name: K, ...args: Parameters<PoolPage[K]>) =>
    page.evaluate(
      ([method, given]) =>
        (window as unknown as { pool: Record<string, (...args: unknown[]) => unknown> }).pool[method]!(...given),
      [name, args] as const,
    ) as Promise<Awaited<ReturnType<PoolPage[K]>>>;

  it("is what it says", async () => {
    expect(await call("isIsolated")).toBe(isIsolated);
  });

  it("answers the next job after a stop in the middle of a pair of a minute", async () => {
    const { stopped, answered, hired } = await call("stopInLongPair");
    expect(stopped).toBe("AbortError");
    expect(answered).toBeGreaterThan(0);
    // with shared memory the worker saw the stop and answers itself; otherwise it is deaf and another takes its place
    expect(hired).toBe(isIsolated ? 1 : 2);
  });

  it("gives the same result for any number of workers, and tells how far it is", async () => {
    const { result } = await call("check", 1);
    expect(result.pairs.length).toBeGreaterThan(0);
    for (const workers of [2, 3]) {
      const more = await call("check", workers);
      expect(more.result).toEqual(result);
      const { pairsDone, pairsTotal } = more.progress.at(-1)!;
      expect(pairsDone).toBe(pairsTotal);
      const told = more.progress.map((each) => each.pairsDone);
      expect(told).toEqual([...told].sort((a, b) => a - b));
    }
  });

  it.each([0, 1])("does a check all the same when worker %i of two dies in the middle of it", async (place) => {
    const { result } = await call("check", 1);
    const { result: again, hired } = await call("checkWithDeath", 2, place);
    expect(again).toEqual(result);
    expect(hired).toBe(3);
  });

  it.each([1, 2])("tells every verdict of an edit before the whole check is there (%i workers)", async (workers) => {
    let { result, verdicts } = await call("edited", workers);
    // on a busy machine the whole check may be there before a worker's last verdict is
    for (let more = 0; more < 4 && verdicts.length === 0; more++)
      ({ result, verdicts } = await call("edited", workers));
    expect(verdicts.length).toBe(1);
    const [known] = verdicts as [(typeof verdicts)[number]];
    expect(known.summary).toEqual(result.summary);
    expect(known.pairs.length).toBe(result.pairs.length);
    expect(known.pairs.filter(({ isAtLeast }) => isAtLeast).length).toBeGreaterThan(100);
    expect(result.pairs.some(({ isAtLeast }) => isAtLeast)).toBe(false);
  });

  it("sends after an edit only the solids that changed, and the bodies are those of a fresh pool", async () => {
    const { kept, before, after, isAsAnew } = await call("builtAgain");
    expect(isAsAnew).toBe(true);
    expect(kept).toEqual(after.filter((content) => before.includes(content)));
    expect(kept.length).toBeGreaterThan(after.length / 2);
    expect(kept.length).toBeLessThan(after.length);
  });

  it("tells a room map to the last bit as one thread does, all of it before it is done", async () => {
    const question = roomOf(storyCorner({ tessellation_mm: 0.3 }));
    const { reason, margin_mm, pair, state } = mapRoom({ ...question, meshFiles: new Map() });
    const { map, told } = await call("room", 2);
    expect(told).toBe(reason.length);
    expect(map).toEqual({ reason, margin_mm, pair, state });
  });

  it("tells a file that is no mesh, every time and whoever asks", async () => {
    for (const workers of [1, 2]) {
      expect(await call("refusals", workers)).toEqual(Array(3).fill("mesh sleeve.stl"));
    }
  });
});
