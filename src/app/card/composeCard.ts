import type { Card, CardPicture } from "../../buildlog/entry.ts";
import { makeCard } from "../../buildlog/make.ts";
import { usersOfPoint } from "../../scene/points.ts";
import { isPairRow, ledgerRows } from "../corner/ledgerRows.ts";
import { moveWords } from "../points/moveWords.ts";
import { pointInfos } from "../points/pointInfo.ts";
import type { App } from "../store/actions.ts";
import { shownDocument } from "../store/tried.ts";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { limitSentence, namedFirst } from "../words/sentences.ts";

export interface CardWords {
  readonly title: string;
  readonly note: string;
  readonly revision: string;
}

/** Why no card can be made of what is shown; null: it can. */
export function cardTrouble(
  state: Pick<App, "document" | "scene" | "result" | "stale" | "error" | "checking">,
): string | null {
  if (!state.document || !state.scene) return t("card.trouble.noScene");
  if (state.error) return t("card.trouble.notChecked", { trouble: state.error.message });
  const [unchecked] = state.result?.unchecked ?? [];
  if (unchecked) {
    const { id, file, wrong, wanted } = unchecked;
    return t("card.trouble.unchecked", { part: nameOf(id, state.scene), file, wrong, wanted });
  }
  if (!state.result || state.stale || state.checking) return t("card.trouble.checking");
  return null;
}

/** The worst verdict as a title: "Upper link meets gearbox mount ear". */
export function usualTitle({ result, scene, unit }: Pick<App, "result" | "scene" | "unit">): string {
  const [worst] = result ? ledgerRows(result) : [];
  if (!worst || worst.kind === "clear" || worst.kind === "accepted") return t("card.usual.nothing");
  if (isPairRow(worst)) {
    const [first, second] = namedFirst(worst.pair, scene);
    const way = worst.pair.clearance_mm < 0 ? "meets" : "passes";
    return t(`card.usual.${way}`, { a: nameOf(first, scene), b: nameWithin(second, scene) });
  }
  const { before, strong } = limitSentence(worst.limit, scene, unit);
  return before + strong;
}

/** A move or edit that is only tried is part of the picture, so the card says so. */
export function usualNote({
  document,
  tried,
  triedEdit = null,
  scene,
  unit,
}: Pick<App, "document" | "tried" | "scene" | "unit"> & Partial<Pick<App, "triedEdit">>): string {
  if (triedEdit) return t("card.usual.tried", { step: triedEdit.stepName });
  const info = document && tried && pointInfos(document).find((point) => point.name === tried.point);
  if (!info || !tried || !scene) return "";
  const { way } = moveWords(info.place, tried.to, null, unit);
  return t("card.usual.triedMove", { point: withinText(info.title), way });
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
    revision: words.revision,
    unit: state.unit,
    travel_mm: state.travel_mm,
    pose: state.pose,
    share: state.share,
    picture,
    made,
    number,
    caution: t("card.caution"),
    usersOfPoint: (name) => usersOfPoint(document, name).map((user) => user.id),
  });
}
