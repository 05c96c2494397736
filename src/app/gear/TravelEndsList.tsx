import { memo, useMemo } from "react";
import type { Scene, Side } from "../../scene/scene.ts";
import { firstEnd, type TravelEnd, type TravelEnds } from "../../studies/runningGear/travelEnds.ts";
import { showState } from "../corner/showState.ts";
import { jointText } from "../loads/partNames.ts";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { engineText } from "../words/names.ts";
import { angleText, lengthText } from "../words/number.ts";
import { travelNumber, travelText } from "../words/travel.ts";

interface ListProps {
  readonly scene: Scene;
  readonly ends: readonly TravelEnds[];
}

/** What comes to its end on the way up and down, at its height, bump at the top; pressing one takes the wheel there. */
export const TravelEndsList = memo(function TravelEndsList({ scene, ends }: ListProps) {
  const shown = useMemo(() => alikeAsOne(ends), [ends]);
  const unit = useApp((state) => state.unit);
  return shown.map(({ ends: told, isBoth }) => (
    <section key={told.side} className="travel-ends">
      <h4>{isBoth ? t("gear.ends.both") : t(`gear.sides.${told.side}`)}</h4>
      <p>{headOf("up", told, scene, unit)}</p>
      <p>{headOf("down", told, scene, unit)}</p>
      <ol aria-label={t("gear.ends.ladder")}>
        {[...told.up].reverse().map((end) => (
          <EndRow key={keyOf(end)} end={end} side={told.side} scene={scene} isFirst={end === firstEnd(told.up)} />
        ))}
        <li className="travel-ride">
          <span className="tabular">0</span>
          <span>{t("gear.ends.ride")}</span>
        </li>
        {told.down.map((end) => (
          <EndRow key={keyOf(end)} end={end} side={told.side} scene={scene} isFirst={end === firstEnd(told.down)} />
        ))}
      </ol>
    </section>
  ));
});

interface EndRowProps {
  readonly end: TravelEnd;
  readonly side: Side;
  readonly scene: Scene;
  /** It is what ends the travel that way. */
  readonly isFirst: boolean;
}

function EndRow({ end, side, scene, isFirst }: EndRowProps) {
  const unit = useApp((state) => state.unit);
  const { at, isSoft, limit, what } = end;
  const { bump_mm, droop_mm } = scene.travel;
  const isBeyond = at.travel_mm > bump_mm + 1e-6 || at.travel_mm < -droop_mm - 1e-6;
  const size = limit === null ? null : isAngle(what) ? angleText(limit, { digits: 1 }) : lengthText(limit, unit);
  const words = (
    <>
      <span className="tabular">{travelNumber(at.travel_mm, unit)}</span>
      <span>
        {endText(end, scene)}
        <small>
          {[
            isFirst ? t("gear.ends.first") : isSoft ? t("gear.ends.soft") : null,
            size && t("gear.ends.limit", { limit: size }),
            at.pose === "rest" ? null : engineText(at.pose, at.share),
            isBeyond ? t("gear.ends.beyond") : null,
          ]
            .filter(Boolean)
            .join("; ")}
        </small>
      </span>
    </>
  );
  return (
    <li data-first={isFirst} data-soft={isSoft}>
      {isBeyond ? (
        <div className="travel-end">{words}</div>
      ) : (
        <button type="button" className="travel-end" onClick={() => showState(side, at.travel_mm, at.pose, at.share)}>
          {words}
        </button>
      )}
    </li>
  );
}

function headOf(way: "up" | "down", ends: TravelEnds, scene: Scene, unit: Unit): string {
  const first = firstEnd(ends[way]);
  const looked_mm = way === "up" ? ends.lookedTo_mm : ends.lookedFrom_mm;
  if (!first) return t(`gear.ends.nothing.${way}`, { where: travelText(looked_mm, unit) });
  return t(`gear.ends.ended.${way}`, { what: endText(first, scene), where: travelText(first.at.travel_mm, unit) });
}

function endText({ what, joint }: TravelEnd, scene: Scene): string {
  const part = joint === undefined ? "" : jointText(joint, scene);
  return t(`gear.ends.what.${what}`, { joint: part });
}

function isAngle(what: TravelEnd["what"]): boolean {
  return what === "inner-angle" || what === "outer-angle" || what === "joint-tilt" || what === "joint-twist";
}

function keyOf({ what, joint, limit }: TravelEnd): string {
  return `${what} ${joint} ${limit}`;
}

interface Shown {
  readonly ends: TravelEnds;
  readonly isBoth: boolean;
}

/** Heights are shown to a tenth of a millimetre. */
const ALIKE_mm = 0.05;

/** Two sides at which the same comes to its end at the same heights are told once. */
export function alikeAsOne(ends: readonly TravelEnds[]): readonly Shown[] {
  const [left, right] = ends;
  if (left && right && areAlike(left.up, right.up) && areAlike(left.down, right.down))
    return [{ ends: left, isBoth: true }];
  return ends.map((each) => ({ ends: each, isBoth: false }));
}

function areAlike(one: readonly TravelEnd[], other: readonly TravelEnd[]): boolean {
  return (
    one.length === other.length &&
    one.every((end, i) => {
      const twin = other[i]!;
      const isSame = end.what === twin.what && end.joint === twin.joint && end.at.pose === twin.at.pose;
      return isSame && Math.abs(end.at.travel_mm - twin.at.travel_mm) < ALIKE_mm;
    })
  );
}
