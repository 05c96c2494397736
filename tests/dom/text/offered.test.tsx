import { cleanup, fireEvent, render, screen } from "@testing-library/react";
import { afterEach, expect, it } from "vitest";
import { readText } from "../../../src/app/text/text.ts";
import { withTwoParts } from "../../scene/parts/document.ts";

afterEach(async () => {
  cleanup();
  await readText("en");
});

it("a ready part is offered under a name of the language that is shown", async () => {
  await readText("de");
  const [{ app }, { usePartsLook }, { Shelf }, { openCorner }] = await Promise.all([
    import("../../../src/app/store/useApp.ts"),
    import("../../../src/app/parts/partsStore.ts"),
    import("../../../src/app/parts/Shelf.tsx"),
    import("../points/scene.ts"),
  ]);
  openCorner(withTwoParts());
  usePartsLook.setState({ shelfOpen: true });
  render(<Shelf />);
  fireEvent.click(screen.getByRole("button", { name: /^Querrohr/ }));
  const name = screen.getByRole("textbox", { name: "Name" }) as HTMLInputElement;
  expect(name.value).toBe("Querrohr");
  fireEvent.click(screen.getByRole("button", { name: "Hinzufügen" }));
  expect(app.getState().document!.bodies.at(-1)).toMatchObject({ id: "Querrohr", made: { as: "cross tube" } });
});
