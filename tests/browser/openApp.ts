import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, inject } from "vitest";
import { CHROMIUM_FLAGS, findChromium } from "../chromium.mjs";

export interface OpenOptions {
  readonly width?: number;
  readonly height?: number;
  readonly touch?: boolean;
  /** Leaves the cautions of a first start open. */
  readonly firstStart?: boolean;
  /** As in a browser without a file-system picker, whose dialog no test can answer. */
  readonly noPicker?: boolean;
  /** As in a browser without WebGL, where the app draws no picture: lighter, for what needs none. */
  readonly noPicture?: boolean;
  /** Run in the page before its own, as text. */
  readonly scripts?: readonly string[];
  /** Lets the app keep itself for use without a network, from this address of its own. */
  readonly keptFrom?: string;
}

export interface OpenApp {
  readonly page: Page;
  readonly context: BrowserContext;
  /**
   * What the page threw or logged as an error, what its policy refused (the browser logs it), and what the page, its workers and
   * its service worker asked for beyond its origin. All must stay empty.
   */
  readonly faults: string[];
}

/** A port of this machine where nothing answers (RFC 863's, which no system serves by itself any more). */
const NOWHERE = "http://127.0.0.1:9";

/** A browser that reaches this machine and nothing else: whatever it asks for elsewhere, workers included, goes nowhere. */
export function launchApart(): Promise<Browser> {
  const executablePath: string | null = findChromium();
  if (!executablePath) throw new Error("no Chromium found: run the tests with `npm test`");
  return chromium.launch({
    executablePath,
    args: CHROMIUM_FLAGS,
    proxy: { server: NOWHERE, bypass: "127.0.0.1,localhost" },
  });
}

/** A browser for one test file, and pages on the built app that tell of every fault and every request to elsewhere. */
export function browserApp(): { open(options?: OpenOptions): Promise<OpenApp> } {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchApart();
  });
  afterAll(() => browser?.close());
  return {
    async open(options: OpenOptions = {}) {
      const {
        width = 1440,
        height = 900,
        touch = false,
        firstStart = false,
        noPicker = false,
        noPicture = false,
        keptFrom,
        scripts = [],
      } = options;
      const address = keptFrom ?? inject("address");
      const context = await browser.newContext({
        viewport: { width, height },
        hasTouch: touch,
        reducedMotion: "reduce",
        // what a service worker asks for passes the route below by
        serviceWorkers: keptFrom ? "allow" : "block",
      });
      // a loaded machine must not fail a test; nothing is timed
      context.setDefaultTimeout(100_000);
      const faults: string[] = [];
      await context.route(
        (url) => url.origin !== new URL(address).origin && url.protocol.startsWith("http"),
        (route) => {
          faults.push(`asked for ${route.request().url()}`);
          return route.abort();
        },
      );
      context.on("request", (request) => {
        const { origin, protocol } = new URL(request.url());
        if (request.serviceWorker() && protocol.startsWith("http") && origin !== new URL(address).origin) {
          faults.push(`its service worker asked for ${request.url()}`);
        }
      });
      if (noPicture) {
        await context.addInitScript(() => {
          HTMLCanvasElement.prototype.getContext = () => null;
        });
      }
      for (const content of scripts) await context.addInitScript({ content });
      const page = await context.newPage();
      if (noPicker) await page.addInitScript(() => Reflect.deleteProperty(window, "showOpenFilePicker"));
      page.on("pageerror", (error) => faults.push(error.message));
      page.on("console", (message) => {
        const isOwn = noPicture && /WebGL/.test(message.text());
        if (message.type() === "error" && !isOwn) faults.push(message.text());
      });
      await page.goto(address);
      if (!firstStart) await page.getByRole("button", { name: "I will check on the car" }).click();
      return { page, context, faults };
    },
  };
}

/** Waits until every pair of the shown scene is swept. */
export async function untilChecked(page: Page): Promise<void> {
  await page.locator("main[aria-busy=false]").waitFor({ timeout: 120_000 });
}

/** Lines of the ledger, worst first, as they read. */
export async function verdictsOf(page: Page): Promise<string[]> {
  const names = await page
    .getByRole("region", { name: "Verdicts" })
    .getByRole("button")
    .evaluateAll((buttons) => buttons.map((button) => button.textContent ?? ""));
  return names.filter((name) => /meets|passes/.test(name));
}
