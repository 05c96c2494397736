import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { type Browser, chromium, type Page } from "playwright-core";
import { CHROMIUM_FLAGS, findChromium } from "../chromium.mjs";

/** A browser as a process of its own over a profile that outlives it: it can be killed as by a power cut, and started again. */
export interface OwnBrowser {
  readonly page: Page;
  /** SIGKILL to the browser and all its children, now: nobody is asked, nothing is flushed. */
  kill(): void;
  /** Resolves once the process is gone, however it ended. */
  readonly gone: Promise<void>;
}

const MORE_FLAGS = [
  "--headless=new",
  "--remote-debugging-port=0",
  "--window-size=1440,900",
  "--noerrdialogs",
  "--disable-extensions",
  // nobody looks at it, and a graphics card that is software takes more of the processor than the page
  "--disable-gpu-rasterization",
];

/** `through`: the program and its arguments that start the browser; empty: it is started itself. */
export async function startOwnBrowser(profile: string, through: readonly string[] = []): Promise<OwnBrowser> {
  const path: string | null = findChromium();
  if (!path) throw new Error("no Chromium found: run the tests with `npm test`");
  const [program, ...words] = [
    ...through,
    path,
    ...CHROMIUM_FLAGS,
    ...MORE_FLAGS,
    `--user-data-dir=${profile}`,
    "about:blank",
  ];
  const child = spawn(program!, words, {
    // a group of its own: killing it reaches the renderers too, and nothing else
    detached: true,
    stdio: ["ignore", "ignore", "pipe"],
  });
  const gone = once(child, "exit").then(() => {});
  const kill = (): void => {
    try {
      process.kill(-child.pid!, "SIGKILL");
    } catch {
      // it has ended already
    }
  };
  process.once("exit", kill);
  void gone.then(() => process.removeListener("exit", kill));
  try {
    const browser: Browser = await chromium.connectOverCDP(await endpointOf(child));
    const context = browser.contexts()[0]!;
    // a loaded machine must not fail a test; nothing is timed
    context.setDefaultTimeout(100_000);
    const page = await context.newPage();
    await page.setViewportSize({ width: 1440, height: 900 });
    return { page, kill, gone };
  } catch (error) {
    kill();
    throw error;
  }
}

/** Where the browser says that it can be driven. */
function endpointOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let told = "";
    child.stderr!.on("data", (chunk: Buffer) => {
      told = (told + chunk.toString()).slice(-10_000);
      const address = /DevTools listening on (ws:\S+)/.exec(told)?.[1];
      if (address) resolve(address);
    });
    child.once("exit", (code) => reject(new Error(`the browser ended with ${code}: ${told}`)));
    child.once("error", reject);
  });
}
