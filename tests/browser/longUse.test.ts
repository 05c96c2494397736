import { describe, expect, it } from "vitest";
import { CHORES, GIVE_SCAN } from "../longUse/chores.ts";
import { COUNT_GPU } from "../longUse/figures.ts";
import { runLong } from "../longUse/longUse.ts";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

/** Those that make most and keep least: dialogs, and a scan with a worker and a picture of its own. */
const SHORT = Object.fromEntries(Object.entries(CHORES).filter(([name]) => /^(dialogs|a scan)/.test(name)));

describe("what is opened and closed again", () => {
  it("leaves no worker, no GPU object and no part of the page behind; the whole run is the long suite's", async () => {
    const { page, faults, context } = await app.open({ scripts: [COUNT_GPU, GIVE_SCAN] });
    await untilChecked(page);
    expect(Object.keys(SHORT).length).toBe(2);
    // what is made once is made in the first round
    const { samples } = await runLong(context.browser()!, page, (rounds) => rounds >= 3, undefined, SHORT);
    const [, second, third] = samples;
    for (const name of ["workers", "buffers", "textures", "programs", "framebuffers"] as const) {
      expect(third![name], name).toBeLessThanOrEqual(second![name]!);
    }
    // texts that come and go (what was saved when) make a few nodes more or less
    expect(third!.nodes! - second!.nodes!).toBeLessThan(10);
    expect(faults).toEqual([]);
    await context.close();
    // three rounds, on a loaded machine too
  }, 600_000);
});
