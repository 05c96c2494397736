import { memo, useMemo } from "react";
import { followingResult } from "../../store/isShownChecked.ts";
import { keptSceneOf } from "../../store/tried.ts";
import { useApp, useAppLater } from "../../store/useApp.ts";
import { t } from "../../text/text.ts";
import { nameOf } from "../../words/names.ts";
import { angleText, lengthNumber } from "../../words/number.ts";
import { curvesOf, leavesText, lengthEffects, type WheelEffect, wheelEffects } from "../effects.ts";
import { moveWords } from "../moveWords.ts";
import type { Meaning } from "../pointInfo.ts";
import { usePointsLook } from "../pointsStore.ts";
import { datumOf, meaningFor } from "../usePointMove.ts";
import { useDrag } from "./dragStore.ts";
import type { PointMark } from "./pointMarks.ts";

interface DragTagProps {
  readonly mark: PointMark;
  readonly spot: { readonly x: number; readonly y: number };
  readonly width: number;
  readonly height: number;
}

const MOST_LENGTHS = 2;
/** Room that it wants below the point, over what stands at the view's foot; else it goes above, where that room is. */
const BELOW_px = 340;
const ABOVE_px = 170;

/** Beside the point while a move is tried: how far, what it means for steel, what holds it, and what becomes of parts and wheel. */
export function DragTag({ mark, spot, width, height }: DragTagProps) {
  const { info } = mark;
  const tried = useApp((state) => state.tried);
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const datum = datumOf(
    scene,
    usePointsLook((look) => look.datumId),
  );
  const meaning = meaningFor(
    info,
    usePointsLook((look) => look.meaning),
  );
  const live = useDrag((drag) => drag.live);
  if (!tried) return null;
  const isRight = spot.x > width / 2;
  const isLow = height - spot.y < BELOW_px && spot.y > ABOVE_px;
  return (
    <div
      className="drag-tag"
      style={{
        [isRight ? "right" : "left"]: isRight ? width - spot.x + 24 : spot.x + 24,
        [isLow ? "bottom" : "top"]: isLow ? height - spot.y + 24 : spot.y + 24,
      }}
    >
      <b>{moveWords(info.place, tried.to, datum, unit).way}</b>
      <small>
        {live?.by
          ? t("points.drag.meaningHeld", { meaning: t(`points.meaning.${meaning}.tag`), held: live.by })
          : t(`points.meaning.${meaning}.tag`)}
      </small>
      <Changes meaning={meaning} />
      <Leaves />
    </div>
  );
}

/** What becomes of lengths and angles, before and after. */
const Changes = memo(function Changes({ meaning }: { meaning: Meaning }) {
  const document = useApp((state) => state.document);
  const unit = useApp((state) => state.unit);
  const error = useApp((state) => state.error);
  const solved = useApp((state) => state.scene);
  const changes = useMemo(() => {
    if (!document || !solved || error) return [];
    const kept = keptSceneOf(document);
    const lengths = meaning === "bolt" ? [] : lengthEffects(kept, solved, (id) => nameOf(id, solved));
    const angles = wheelEffects(curvesOf(kept), curvesOf(solved)).filter(
      ({ kind, before, after }) => kind === "angle" && Math.abs((after ?? 0) - (before ?? 0)) > 0.005,
    );
    return [
      ...lengths
        .slice(0, MOST_LENGTHS)
        .map(({ part, before_mm, after_mm }) => [part, lengthNumber(before_mm, unit), lengthNumber(after_mm, unit)]),
      ...angles.map(({ reading, before, after }) => [
        changeName(reading),
        angleText(before ?? 0),
        angleText(after ?? 0),
      ]),
    ];
  }, [document, solved, error, meaning, unit]);
  return changes.map(([name, before, after]) => (
    <span key={name}>
      {name} <span className="tabular">{before}</span> → <b className="tabular">{after}</b>
    </span>
  ));
});

/** What would touch and be tight, or that the move cannot be. */
const Leaves = memo(function Leaves() {
  const error = useApp((state) => state.error);
  const checked = useAppLater(followingResult);
  const trailing = useAppLater((state) => state.trailing);
  if (error) return <small>{t("points.drag.cannot")}</small>;
  return (
    <small>
      {checked === null
        ? t("points.drag.checking")
        : trailing
          ? t("points.drag.following", { leaves: leavesText(checked) })
          : leavesText(checked)}
    </small>
  );
});

function changeName(reading: WheelEffect["reading"]): string {
  const name = t(`points.readings.${reading}`);
  return reading === "toeAtRide" || reading === "camberAtRide" ? name : t("points.drag.change", { reading: name });
}
