import { readFileSync } from "node:fs";
import type { Browser, CDPSession, Page } from "playwright-core";
import { heapSizes } from "./heap.ts";

/** What is counted at the end of a round, everything that nobody holds thrown away before. */
export const FIGURES = {
  held_MB: "what the page holds, MB",
  memory_MB: "page and workers as the browser counts them, MB",
  renderer_MB: "resident memory of the page's process, MB",
  nodes: "DOM nodes",
  listeners: "listeners of events",
  workers: "workers",
  buffers: "GPU buffers",
  textures: "GPU textures",
  programs: "GPU programs",
  framebuffers: "GPU framebuffers",
} as const;

export type FigureName = keyof typeof FIGURES;
export type Sample = Readonly<Record<FigureName, number | null>>;

/**
 * Flags with which the browser answers at once what the page and its workers take, and makes at a function's first call what it
 * otherwise makes of it after some hundred (machine code, counts of what it meets): that comes once, over hours, and would look
 * like growth in a run of one. What it makes of the page's own functions after thousands of calls is not counted (heap.ts).
 */
export const FLAGS = [
  "--enable-blink-features=ForceEagerMeasureMemory",
  "--js-flags=--always-sparkplug --no-lazy-feedback-allocation",
];

/** Wide enough for the wide layout; software graphics draw no more than they must. */
export const WINDOW = { width: 1200, height: 660 };

/**
 * In the page before its own scripts, as text: what the page asked its graphics contexts to make and not to delete, and still
 * holds; what a context itself counts is told nowhere. Objects of a context that is given up are gone with it. Nothing is held here.
 */
export const COUNT_GPU = `(() => {
  const made = { Buffer: new Set(), Texture: new Set(), Program: new Set(), Framebuffer: new Set() };
  window.gpuObjects = () => Object.fromEntries(Object.entries(made).map(([kind, all]) => {
    for (const one of all) {
      const context = one.context.deref();
      if (!one.object.deref() || !context || context.isContextLost()) all.delete(one);
    }
    return [kind, all.size];
  }));
  for (const [kind, all] of Object.entries(made)) {
    const own = WebGL2RenderingContext.prototype;
    const make = own["create" + kind];
    const drop = own["delete" + kind];
    const known = new WeakMap();
    own["create" + kind] = function () {
      const object = make.call(this);
      const one = { object: new WeakRef(object), context: new WeakRef(this) };
      known.set(object, one);
      all.add(one);
      return object;
    };
    own["delete" + kind] = function (object) {
      if (object) all.delete(known.get(object));
      return drop.call(this, object);
    };
  }
})()`;

/** Takes samples of one page. */
export class Counter {
  private readonly page: Page;
  private readonly client: CDPSession;
  private readonly process: number | null;

  private constructor(page: Page, client: CDPSession, process: number | null) {
    this.page = page;
    this.client = client;
    this.process = process;
  }

  static async of(browser: Browser, page: Page): Promise<Counter> {
    const client = await page.context().newCDPSession(page);
    await client.send("HeapProfiler.enable");
    await client.send("Performance.enable");
    const whole = await browser.newBrowserCDPSession();
    const { processInfo } = await whole.send("SystemInfo.getProcessInfo");
    await whole.detach();
    // the page that is measured is the only one; a spare process of the browser's has done nothing yet
    const [renderer] = processInfo.filter(({ type }) => type === "renderer").sort((a, b) => b.cpuTime - a.cpuTime);
    return new Counter(page, client, renderer?.id ?? null);
  }

  async sample(): Promise<Sample> {
    // what finalisers let go of falls to the second
    for (let i = 0; i < 2; i++) await this.client.send("HeapProfiler.collectGarbage");
    const memory_MB = (await this.page.evaluate(`performance.measureUserAgentSpecificMemory
      ? performance.measureUserAgentSpecificMemory().then(({ bytes }) => bytes / 1e6) : null`)) as number | null;
    const { held_bytes } = await heapSizes(this.client);
    const { metrics } = await this.client.send("Performance.getMetrics");
    const told = (name: string) => metrics.find((metric) => metric.name === name)?.value ?? null;
    const gpu = (await this.page.evaluate("window.gpuObjects()")) as Record<string, number>;
    return {
      held_MB: held_bytes / 1e6,
      memory_MB,
      renderer_MB: residentMB(this.process),
      nodes: told("Nodes"),
      listeners: told("JSEventListeners"),
      workers: this.page.workers().length,
      buffers: gpu.Buffer!,
      textures: gpu.Texture!,
      programs: gpu.Program!,
      framebuffers: gpu.Framebuffer!,
    };
  }
}

/** Null where the system tells no such thing (/proc is Linux's). */
function residentMB(process: number | null): number | null {
  if (process === null) return null;
  try {
    const kB = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${process}/status`, "utf8"))?.[1];
    return kB ? Number(kB) / 1000 : null;
  } catch {
    return null;
  }
}
