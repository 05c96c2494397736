import type { Card } from "../../buildlog/entry.ts";
import { meshFilesOf } from "../../scene/meshFiles.ts";
import { desk } from "../projects/theDesk.ts";
import { app } from "../store/useApp.ts";

/** Opens a card's scene as a step that can be undone, with the wheels and the engine where the card's picture has them. */
export function openAgain(card: Card): void {
  // a fresh copy: a card opened twice in a row must be seen as another document
  app.getState().openDocument({ ...card.document }, card.fileName);
  standAsIn(card);
}

/** Begins a new project with a card's scene; the one that is open stays on the list as it is. */
export async function openAsNew(card: Card): Promise<void> {
  const known = app.getState().files;
  // scans are kept with the projects, not in the log: those that are at hand go along, others are asked for
  const named = meshFilesOf(card.document).map(({ file }) => file);
  const files = new Map(named.flatMap((path) => (known.has(path) ? [[path, known.get(path)!]] : [])));
  await desk.openNew({ ...card.document }, card.fileName, files);
  standAsIn(card);
}

function standAsIn({ travel_mm, pose, share = 1 }: Card): void {
  const wheels = travel_mm.left === travel_mm.right ? "together" : "opposed";
  app.setState({ wheels, travel_mm, pose, share, place: "corner" });
}
