import type { ClashItem } from "../../buildlog/clashes.ts";
import type { Finding } from "../../buildlog/digest.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { pairName } from "../card/facts.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { engineText, nameOf, nameWithin } from "../words/names.ts";
import { lengthNumber, lengthText, numberText, wantedText } from "../words/number.ts";
import { isAngle } from "../words/sentences.ts";
import { travelText } from "../words/travel.ts";

/** "Upper link, sump (left)"; "Driveshaft length (right)". Without the scene it is told by the parts' own names. */
export function clashName({ of, side }: Finding, document: SceneDocument | null): string {
  const name =
    of.kind === "pair"
      ? document
        ? pairName({ document }, of)
        : t("card.pair", { a: nameOf(of.a, null), b: nameWithin(of.b, null) })
      : of.joint === undefined
        ? t(`card.limits.${of.what}`)
        : t("log.clashes.ofJoint", { limit: t(`card.limits.${of.what}`), joint: of.joint });
  return t("card.named", { name, side: t(`card.sides.${side}`) });
}

/** "6.2 mm too deep, wants 10 mm"; "450.1 mm, at most 447.0 mm". */
export function clashGap({ of }: Finding, unit: Unit): string {
  if (of.kind === "limit") {
    const value = (amount: number) =>
      isAngle(of) ? `${numberText(amount, { digits: 1 })}°` : lengthText(amount, unit);
    const values = { value: value(of.value), limit: value(of.limit) };
    return of.value < of.limit ? t("log.clashes.atLeast", values) : t("log.clashes.atMost", values);
  }
  const values = {
    gap: lengthNumber(Math.abs(of.clearance_mm), unit),
    wants: wantedText(of.required_mm, unit),
    unit,
  };
  return of.clearance_mm < 0 ? t("log.clashes.deep", values) : t("log.clashes.off", values);
}

/** "at +38 bump, engine on overrun; cards 12 to 14". */
export function clashWhere({ finding: { at }, first, last }: ClashItem, unit: Unit): string {
  const values = {
    state: t("card.state", { travel: travelText(at.travel_mm, unit), engine: engineText(at.pose, at.share) }),
    first,
    last,
  };
  return first === last ? t("log.clashes.foundOnce", values) : t("log.clashes.foundBetween", values);
}

/** How it stands, who says so, and what speaks against it. */
export function clashStanding({ state, by, doubt, why, newest }: ClashItem): string {
  const said =
    by === "check" || why === "" ? t(`log.clashes.states.${state}`) : t(`log.clashes.because.${state}`, { why });
  if (doubt === "still-found") return t("log.clashes.stillFound", { said, newest });
  if (doubt === "not-checked") return t("log.clashes.notChecked", { said, newest });
  if (by === "check") return t("log.clashes.foundClear", { newest });
  return by === "scene" ? t("log.clashes.inScene", { said }) : said;
}
