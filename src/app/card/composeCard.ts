import type { Card, CardPicture } from "../../buildlog/entry.ts";
import { makeCard } from "../../buildlog/make.ts";
import { usersOfPoint } from "../../scene/points.ts";
import { isPairRow, ledgerRows } from "../corner/ledgerRows.ts";
import { moveWords } from "../points/moveWords.ts";
import { pointInfos } from "../points/pointInfo.ts";
import type { App } from "../store/actions.ts";
import { shownDocument } from "../store/tried.ts";
import { limitSentence, pairSentence } from "../words/sentences.ts";

export interface CardWords {
  readonly title: string;
  readonly note: string;
}

/** Why no card can be made of what is shown; null: it can. */
export function cardTrouble(
  state: Pick<App, "document" | "scene" | "result" | "stale" | "error" | "checking">,
): string | null {
  if (!state.document || !state.scene) return "Open a scene first.";
  if (state.error) return `The scene as it is now cannot be checked: ${state.error.message}`;
  if (!state.result || state.stale || state.checking)
    return "The check is still running; the verdicts are from before your change.";
  return null;
}

/** The worst verdict as a title: "Upper link meets gearbox mount ear". */
export function usualTitle({ result, scene, unit }: Pick<App, "result" | "scene" | "unit">): string {
  const [worst] = result ? ledgerRows(result) : [];
  if (!worst || worst.kind === "clear" || worst.kind === "accepted") return "Nothing touches";
  if (isPairRow(worst)) return withoutColon(pairSentence(worst.pair, scene, unit).before);
  const sentence = limitSentence(worst.limit, unit);
  return withoutColon(sentence.before + sentence.strong);
}

function withoutColon(text: string): string {
  return text.replace(/:?\s*$/, "");
}

/** A move or edit that is only tried is part of the picture, so the card says so. */
export function usualNote({
  document,
  tried,
  triedEdit = null,
  scene,
  unit,
}: Pick<App, "document" | "tried" | "scene" | "unit"> & Partial<Pick<App, "triedEdit">>): string {
  if (triedEdit) return `Tried, not kept: ${triedEdit.stepName}.`;
  const info = document && tried && pointInfos(document).find((point) => point.name === tried.point);
  if (!info || !tried || !scene) return "";
  const { way } = moveWords(info.place, tried.to, null, unit);
  return `Tried, not kept: ${info.title.charAt(0).toLowerCase()}${info.title.slice(1)} ${way}.`;
}

/** The card of what is shown, a tried move applied. Null when there is nothing checked to make it of. */
export function composeCard(
  state: App,
  words: CardWords,
  picture: CardPicture | null,
  number: number,
  made: Date,
): Card | null {
  const document = shownDocument(state);
  const { scene, result } = state;
  if (!document || !scene || !result || cardTrouble(state)) return null;
  return makeCard({
    document,
    scene,
    result,
    fileName: state.fileName,
    title: words.title.trim() || usualTitle(state),
    note: words.note,
    unit: state.unit,
    travel_mm: state.travel_mm,
    pose: state.pose,
    share: state.share,
    picture,
    made,
    number,
    usersOfPoint: (name) => usersOfPoint(document, name).map((user) => user.id),
  });
}
