import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { browserApp, type OpenApp, untilChecked } from "./openApp.ts";

const app = browserApp();

// names that end in .invalid lead nowhere, ever (RFC 2606)
describe("the policy that the built app runs under", () => {
  let open: OpenApp;
  beforeAll(async () => {
    open = await app.open({ noPicture: true });
    await untilChecked(open.page);
  });
  afterAll(() => open?.context.close());

  it("lets the whole app open and check", () => {
    expect(open.faults).toEqual([]);
  });

  // Content Security Policy Level 3 and Trusted Types (W3C): the directive that refuses each
  it.each([
    ["text that becomes code", "require-trusted-types-for", () => new Function("return 1")()],
    [
      "text that becomes markup",
      "require-trusted-types-for",
      () => {
        document.createElement("p").innerHTML = "<b>x</b>";
      },
    ],
    [
      "a handler written into markup",
      "require-trusted-types-for",
      () => {
        document.createElement("p").setAttribute("onclick", "globalThis.ran = true");
      },
    ],
    [
      "a style element",
      "style-src-elem",
      () => {
        const style = document.createElement("style");
        style.append("body { display: none }");
        document.body.append(style);
      },
    ],
    [
      "a frame",
      "frame-src",
      () => {
        const frame = document.createElement("iframe");
        frame.src = "./index.html";
        document.body.append(frame);
      },
    ],
    [
      "a picture from elsewhere",
      "img-src",
      () => {
        const picture = new Image();
        picture.src = "http://elsewhere.invalid/a.png";
      },
    ],
    ["a request to elsewhere", "connect-src", () => fetch("http://elsewhere.invalid/").catch(() => {})],
    [
      "a line to elsewhere",
      "connect-src",
      () => {
        try {
          new WebSocket("ws://elsewhere.invalid/");
        } catch {
          // Firefox's way
        }
      },
    ],
    [
      "a form sent away",
      "form-action",
      () => {
        const form = document.createElement("form");
        form.action = "http://elsewhere.invalid/";
        document.body.append(form);
        form.requestSubmit();
      },
    ],
    [
      "another base for addresses",
      "base-uri",
      () => {
        const base = document.createElement("base");
        base.href = "http://elsewhere.invalid/";
        document.head.append(base);
      },
    ],
  ] as const)("refuses %s, and every test of the app would tell of it", async (_, directive, attempt) => {
    const { page, faults } = open;
    const told = page.evaluate(
      () =>
        new Promise<string>((resolve) => {
          document.addEventListener("securitypolicyviolation", (event) => resolve(event.effectiveDirective), {
            once: true,
          });
        }),
    );
    const before = faults.length;
    // from a task of the page's own: what the test's line to the browser runs directly is let pass
    await page.evaluate(`void setTimeout(${attempt})`);
    expect(await told).toBe(directive);
    await expect.poll(() => faults.length).toBeGreaterThan(before);
    expect(await page.evaluate(() => Reflect.get(globalThis, "ran"))).toBeUndefined();
  });

  it("runs no script that is written into the page", async () => {
    const { page } = open;
    const ran = await page.evaluate(() => {
      const script = document.createElement("script");
      script.append("globalThis.ran = true");
      // a script in the page's own text runs before this returns, if ever
      document.body.append(script);
      return Reflect.get(globalThis, "ran");
    });
    expect(ran).toBeUndefined();
  });

  it("holds in its workers too", async () => {
    const workers = open.page.workers();
    expect(workers.length).toBeGreaterThan(0);
    for (const worker of workers) {
      const refused = await worker.evaluate(async () => {
        const told: string[] = [];
        for (const attempt of [() => new Function("return 1")(), () => fetch("http://elsewhere.invalid/")]) {
          await new Promise<void>((resolve) => {
            const listen = (event: SecurityPolicyViolationEvent): void => {
              told.push(event.effectiveDirective);
              resolve();
            };
            self.addEventListener("securitypolicyviolation", listen as (event: Event) => void, { once: true });
            setTimeout(async () => {
              try {
                await attempt();
                told.push("done");
                resolve();
              } catch {
                // the event says why
              }
            });
          });
        }
        return told;
      });
      expect(refused).toEqual(["require-trusted-types-for", "connect-src"]);
    }
  });
});

describe("the licences of what is in it", () => {
  it("go with the built app, are the list that reviewers see, and open from the menu", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    const kept = readFileSync(fileURLToPath(new URL("../../assets/third-party.txt", import.meta.url)), "utf8");
    // where they differ: npm run licences
    expect(await (await fetch(`${inject("address")}third-party.txt`)).text()).toBe(kept);
    await page.getByRole("button", { name: /^Scene/ }).click();
    const opened = context.waitForEvent("page");
    await page.getByRole("menuitem", { name: "Licences of what is in it" }).click();
    const list = await opened;
    await list.getByText(/^Works of others that are shipped with Elbowroom/).waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });
});
