import type { Vec3 } from "../../maths/vec3.ts";
import { InputError } from "../../scene/error.ts";
import { MovedPoints } from "../../studies/places/move.ts";
import { moveWords } from "../points/moveWords.ts";
import { pointInfos } from "../points/pointInfo.ts";
import { viewHandle } from "../shell/viewHandle.ts";
import { app } from "../store/useApp.ts";
import { listText, withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { isOf } from "./roomEngine.ts";
import { askablePoints, questionOf, type RoomForm, waysOf } from "./roomForm.ts";
import { type RoomRun, useRoom } from "./roomStore.ts";
import { gridOf } from "./roomTold.ts";
import { partOf } from "./roomTried.ts";

/** Begins to look for room as the form asks, of the car as it is kept. */
export function lookForRoom(form: RoomForm): void {
  const { document, scene } = app.getState();
  if (!document || !scene) return;
  try {
    const question = questionOf(form, document, scene);
    const info = askablePoints(document).find(({ name }) => name === form.point);
    if (!question || !info) return;
    const run: RoomRun = { question, ways: waysOf(form), document, base: info.place };
    useRoom.setState({ run, map: null, done: 0, place: null, pointed: null, error: null, isRunning: true, form });
    useRoom.setState({ isFormOpen: false, through: Math.min(1, run.ways.length - 1) });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    useRoom.setState({ error });
  }
}

/** What was told stays. */
export function stopLooking(): void {
  useRoom.setState({ isRunning: false });
}

/** Takes the view to the places, from where it looks now. */
export function showFromClose({ question, base }: RoomRun): void {
  const spread_mm = Math.max(...question.region.spans.map(({ from_mm, to_mm }) => to_mm - from_mm));
  viewHandle.current?.frame({ at: base, span_mm: Math.max(LEAST_SEEN_mm, SEEN_ROUND * spread_mm) });
}

const LEAST_SEEN_mm = 120;
/** So much more of the car is shown than the places spread. */
const SEEN_ROUND = 3;

export function lookAtPlace(place: number | null): void {
  useRoom.setState({ place });
}

/** The words of a move to a place: "20 up, 4 inboard". */
export function wayText(offset: Vec3): string {
  return moveWords([0, 0, 0], offset, null, app.getState().unit).way;
}

/** The name of the step that takes the points there. */
function stepName({ question, document }: RoomRun, offset: Vec3): string {
  const infos = pointInfos(document);
  const titles = question.points.map((name) => withinText(infos.find((info) => info.name === name)?.title ?? name));
  const meaning = question.fit === "cut" ? "cut" : "bolt";
  return t(`points.steps.${meaning}`, { point: listText(titles), way: wayText(offset) });
}

/** Shows the car with the points in that place, not kept yet; the check follows. False where the car is not what was asked of. */
export function tryPlaceThere(place: number): boolean {
  const { run, map } = useRoom.getState();
  const { document } = app.getState();
  if (!run || !map || !document || !isOf(document, run)) return false;
  const offset = gridOf(map).offsetOf(place);
  const { points, fit } = run.question;
  const moved = new MovedPoints(document, points, fit);
  const offsets = points.map(() => offset);
  const [one] = points;
  if (points.length === 1) {
    app.getState().tryMove({ point: one!, to: moved.placesAt(offsets)[0]!, meaning: fit === "cut" ? "cut" : "bolt" });
    return true;
  }
  app.getState().tryEdit({ part: partOf(run, place), document: moved.at(offsets), stepName: stepName(run, offset) });
  return true;
}

/** Makes the move to that place a step of the document. */
export function takePlace(place: number): void {
  const { run, map } = useRoom.getState();
  if (!run || !map || !tryPlaceThere(place)) return;
  const state = app.getState();
  // what cannot be shown is told, and not kept
  if (state.error) return;
  if (state.triedEdit) state.keepEdit();
  else state.keepMove(stepName(run, gridOf(map).offsetOf(place)));
}
