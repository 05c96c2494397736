import { cleanup, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { ViewNotes } from "../../src/app/corner/ViewNotes.tsx";
import { blankState } from "../../src/app/store/blank.ts";
import { pairKey } from "../../src/app/store/state.ts";
import { app } from "../../src/app/store/useApp.ts";
import type { ModelBody } from "../../src/check/model.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { checkResult, pairVerdict, smallScene } from "../app/smallScene.ts";

const pair = pairVerdict();

function body(key: string, group: ModelBody["group"]): ModelBody {
  const solid = { positions: new Float64Array(), indices: new Uint32Array() } as unknown as ModelBody["solid"];
  return {
    key,
    id: key.split("@")[0]!,
    side: "left",
    mount: "chassis",
    group,
    role: null,
    look: null,
    solid,
    content: key,
  };
}

beforeEach(() => {
  const bodies = [body("gearbox-mount-ear", "powertrain"), body("upper@left", "arms"), body("rail", "chassis")];
  const scene = resolveScene(smallScene());
  app.setState({ ...blankState(), document: smallScene(), scene, bodies, result: checkResult([pair]) });
});
afterEach(cleanup);

describe("a chosen touch on parts that are off in the view", () => {
  it("says which group is off", () => {
    app.setState({
      chosenPair: pairKey(pair),
      closeLook: false,
      show: { chassis: "off", powertrain: "off", hub: "solid", arms: "solid" },
    });
    render(<ViewNotes />);
    expect(screen.getByText(/^powertrain is off in the view: of it, only what touches is drawn/)).toBeTruthy();
  });

  it("has nothing to say while both parts are shown, or no touch is chosen", () => {
    app.setState({
      chosenPair: pairKey(pair),
      closeLook: false,
      show: { chassis: "off", powertrain: "glass", hub: "off", arms: "solid" },
    });
    render(<ViewNotes />);
    expect(screen.queryByText(/off in the view/)).toBeNull();
    cleanup();
    app.setState({ chosenPair: null, show: { chassis: "off", powertrain: "off", hub: "off", arms: "off" } });
    render(<ViewNotes />);
    expect(screen.queryByText(/off in the view/)).toBeNull();
  });
});
