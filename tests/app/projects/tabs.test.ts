import { describe, expect, it } from "vitest";
import { smallScene } from "../smallScene.ts";
import { fakeBrowser, kill, lift, until } from "./fakes.ts";

async function two() {
  const browser = fakeBrowser();
  const first = await browser.tab();
  await first.desk.openNew(smallScene(), "small.json");
  lift(first, "one");
  await first.desk.flush();
  const second = await browser.tab(first.id());
  return { browser, first, second, id: first.id() };
}

describe("two tabs on one project", () => {
  it("the second looks and follows, and changes nothing", async () => {
    const { first, second } = await two();
    expect(second.store.getState()).toMatchObject({ standing: "watched", stepName: "one" });
    lift(second, "mine");
    expect(second.store.getState()).toMatchObject({ stepName: "one", refusedEdits: 1 });
    lift(first, "two");
    await until(() => second.store.getState().stepName === "two");
    expect(second.store.temporal.getState().pastStates).toHaveLength(2);
    first.store.getState().undo();
    await until(() => second.store.getState().stepName === "one");
  });

  it("the second takes over on request: the first saves what it has, then looks on", async () => {
    const { first, second, browser } = await two();
    lift(first, "last of the first");
    await second.desk.takeOver();
    expect(second.store.getState()).toMatchObject({ standing: "mine", stepName: "last of the first" });
    expect(first.store.getState().standing).toBe("watched");
    lift(second, "first of the second");
    await until(() => first.store.getState().stepName === "first of the second");
    lift(first, "refused");
    expect(first.store.getState().stepName).toBe("first of the second");
    await second.desk.flush();
    kill(first);
    kill(second);
    const third = await browser.tab();
    expect(third.store.temporal.getState().pastStates.map(({ stepName }) => stepName)).toEqual([
      "",
      "one",
      "last of the first",
    ]);
  });

  it("the second has the project once the first is closed", async () => {
    const { first, second } = await two();
    await second.desk.takeIfFree();
    expect(second.store.getState().standing).toBe("watched");
    kill(first);
    await second.desk.takeIfFree();
    expect(second.store.getState().standing).toBe("mine");
    lift(second, "two");
    expect(await second.desk.flush()).toBe(true);
  });

  it("the second goes on with a copy that has all steps; the first is not touched", async () => {
    const { first, second, id } = await two();
    await second.desk.keepAsCopy();
    expect(second.id()).not.toBe(id);
    expect(second.store.getState()).toMatchObject({ standing: "mine", stepName: "copy as Small corner, copy" });
    second.store.getState().undo(2);
    expect(second.store.getState().document!.points).toEqual(smallScene().points);
    lift(first, "two");
    expect(await first.desk.flush()).toBe(true);
    expect(first.store.getState().stepName).toBe("two");
  });

  it("a save over a newer revision is refused and said; what is on the page is kept as a copy", async () => {
    const { browser, first, second, id } = await two();
    // as where the browser has no locks: both tabs take the project for theirs
    browser.holders.clear();
    await second.desk.takeIfFree();
    lift(second, "by the second");
    await second.desk.flush();
    lift(first, "by the first");
    expect(await first.desk.flush()).toBe(false);
    expect(first.store.getState()).toMatchObject({ standing: "cut-off", stepName: "by the first" });
    const database = await first.door();
    expect((await database.getAll("steps")).map(({ stepName }) => stepName)).toEqual(["", "one", "by the second"]);
    expect(await first.desk.open(id)).toBe(false);
    expect(first.store.getState().stepName).toBe("by the first");
    await first.desk.keepAsCopy();
    expect(first.store.getState().standing).toBe("mine");
    lift(first, "and on");
    expect(await first.desk.flush()).toBe(true);
    expect(first.store.temporal.getState().pastStates.map(({ stepName }) => stepName)).toContain("by the first");
  });

  it("a tab that was taken from in its sleep finds its unsaved step still there", async () => {
    const { browser, first, id } = await two();
    let asleep = false;
    const sleeper = await browser.tab(id, {
      door: () => (asleep ? new Promise(() => {}) : first.door()),
    });
    kill(first);
    await sleeper.desk.takeIfFree();
    asleep = true;
    lift(sleeper, "never saved");
    const other = await browser.tab(id);
    await other.desk.takeOver();
    expect(other.store.getState()).toMatchObject({ standing: "mine", stepName: "one" });
    await until(() => sleeper.store.getState().standing === "cut-off");
    expect(sleeper.store.getState().stepName).toBe("never saved");
  });

  it("a project that is open elsewhere is neither renamed nor deleted, and it is said why", async () => {
    const { browser, id } = await two();
    const third = await browser.tab("none such");
    await third.desk.openNew(smallScene({ title: "Other" }), "other.json");
    await third.desk.rename(id, "New name");
    expect(third.desk.state.getState().note).toMatch(/open in another tab/);
    await third.desk.remove(id);
    const kept = await (await third.door()).get("projects", id);
    expect(kept).toMatchObject({ title: "Small corner", deleted_ms: null });
  });
});
