import type { Card } from "../../buildlog/entry.ts";
import { app } from "../store/useApp.ts";

/** Opens a card's scene as a step that can be undone, with the wheels and the engine where the card's picture has them. */
export function openAgain({ document, fileName, travel_mm, pose, share = 1 }: Card): void {
  // a fresh copy: a card opened twice in a row must be seen as another document
  app.getState().openDocument({ ...document }, fileName);
  const wheels = travel_mm.left === travel_mm.right ? "together" : "opposed";
  app.setState({ wheels, travel_mm, pose, share, place: "corner" });
}
