import { beforeEach, describe, expect, it } from "vitest";
import { createAppStore } from "../../../src/app/store/store.ts";
import { askedStudy, isSameQuestion } from "../../../src/app/studies/askedStudy.ts";
import { withAside } from "../../../src/scene/aside.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { InputError } from "../../../src/scene/error.ts";
import { stoppedError } from "../../../src/work/outcome.ts";
import type { OnStudyProgress } from "../../../src/work/protocol.ts";
import { storyCorner } from "../../check/storyCorner.ts";

interface Question {
  readonly document: SceneDocument;
  readonly within_mm: number;
}

function begun() {
  const store = createAppStore();
  store.setState({ document: storyCorner(), fileName: "one" });
  const asked: {
    question: Question;
    stopped: boolean;
    tell: OnStudyProgress;
    answer(result: string): void;
    fail(error: unknown): void;
  }[] = [];
  const study = askedStudy<Question, string>();
  const end = study.serve(store, (question, _files, tell) => {
    let answer: (result: string) => void = () => {};
    let fail: (error: unknown) => void = () => {};
    const done = new Promise<string>((resolve, reject) => {
      answer = resolve;
      fail = reject;
    });
    const one = { question, stopped: false, tell, answer, fail };
    asked.push(one);
    return {
      done,
      stop() {
        one.stopped = true;
        fail(stoppedError());
      },
    };
  });
  return { store, asked, study, end };
}

const settled = () => new Promise((resolve) => setTimeout(resolve));
const question = (within_mm = 25): Question => ({ document: storyCorner(), within_mm });

describe("a study that is asked for", () => {
  let room: ReturnType<typeof begun>;
  beforeEach(() => {
    room = begun();
  });

  it("tells how far it is and then what it found, with what it was asked", async () => {
    const { asked, study } = room;
    study.ask(question());
    expect(study.use.getState().running).toEqual({ done: 0, total: 0 });
    asked[0]!.tell({ done: 2, total: 6 });
    expect(study.use.getState().running).toEqual({ done: 2, total: 6 });
    asked[0]!.answer("found");
    await settled();
    expect(study.use.getState()).toEqual({
      running: null,
      trouble: null,
      told: { question: asked[0]!.question, result: "found" },
    });
  });

  it("stopped keeps what it told before, and hears nothing more of what was stopped", async () => {
    const { asked, study } = room;
    study.ask(question());
    asked[0]!.answer("first");
    await settled();
    study.ask(question(30));
    study.stop();
    asked[1]!.tell({ done: 1, total: 2 });
    await settled();
    expect(asked[1]!.stopped).toBe(true);
    expect(study.use.getState()).toMatchObject({ running: null, trouble: "stopped", told: { result: "first" } });
  });

  it("asked anew drops what it was at", async () => {
    const { asked, study } = room;
    study.ask(question());
    study.ask(question(30));
    expect(asked[0]!.stopped).toBe(true);
    asked[1]!.answer("second");
    await settled();
    expect(study.use.getState().told?.result).toBe("second");
  });

  it("tells what is wrong in the scene itself, and leaves what is wrong with the workers to the app", async () => {
    const { store, asked, study } = room;
    study.ask(question());
    const error = new InputError("missing-id", { path: "pair" }, "neither clashes nor is tight", "one that does");
    asked[0]!.fail(error);
    await settled();
    expect(study.use.getState()).toMatchObject({ running: null, trouble: error });
    study.ask(question());
    asked[1]!.fail(new Error("a worker stopped"));
    await settled();
    expect(study.use.getState()).toMatchObject({ running: null, trouble: null });
    expect(store.getState().workTrouble).toBe("a worker stopped");
  });

  it("forgets all of another scene", async () => {
    const { store, asked, study } = room;
    study.ask(question());
    asked[0]!.answer("found");
    await settled();
    study.ask(question());
    store.setState({ fileName: "other" });
    expect(asked[1]!.stopped).toBe(true);
    expect(study.use.getState()).toEqual({ running: null, told: null, trouble: null });
  });
});

describe("a question", () => {
  it("is the same while only measures and loads change, another for another car or another wish", () => {
    const one = question();
    const measured = withAside(one.document, { loads: { cornerMass_kg: 300 } });
    expect(isSameQuestion(one, { ...one, document: measured })).toBe(true);
    expect(isSameQuestion(one, { ...one, within_mm: 30 })).toBe(false);
    expect(isSameQuestion(one, { ...one, document: storyCorner({ title: "other" }) })).toBe(false);
  });
});
