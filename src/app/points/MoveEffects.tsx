import { memo, useMemo } from "react";
import type { CheckResult, PairVerdict } from "../../check/result.ts";
import { pairName } from "../card/facts.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { followingResult, isExact } from "../store/isShownChecked.ts";
import type { TriedMove, Unit } from "../store/state.ts";
import { keptSceneOf } from "../store/tried.ts";
import { useApp, useAppLater } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { angleText, fractionText, lengthNumber } from "../words/number.ts";
import {
  curvesOf,
  isNewClash,
  leavesText,
  lengthEffects,
  openPairs,
  type PairEffect,
  pairEffects,
  type WheelEffect,
  wheelEffects,
} from "./effects.ts";

const MOST_PAIRS = 5;

/**
 * What a tried move would do: gaps, wheel and lengths, now and then. Wheel and lengths are worked out on the spot; gaps
 * would be what the check of exactly this move says, and nothing stands there before it does.
 */
export const MoveEffects = memo(function MoveEffects({ meaning }: Pick<TriedMove, "meaning">) {
  // the point follows the hand first
  const before = useAppLater((state) => state.resultBefore);
  const result = useAppLater(followingResult);
  const unit = useApp((state) => state.unit);
  return (
    <div className="effects">
      <Progress waiting={result === null || before === null} />
      {before && <Gaps before={before} after={result} unit={unit} />}
      <Wheel unit={unit} />
      <Lengths meaning={meaning} unit={unit} />
    </div>
  );
});

function Progress({ waiting }: { waiting: boolean }) {
  const checking = useApp((state) => state.checking);
  const stopped = useApp((state) => state.checkStopped);
  const trouble = useApp((state) => state.workTrouble);
  if (trouble) return <p className="point-error">{t("points.effects.noResult", { trouble })}</p>;
  if (stopped) return <p className="fine quiet">{t("points.effects.stopped")}</p>;
  if (!waiting) return null;
  return (
    <p className="fine quiet">
      {checking
        ? t("points.effects.checkingPairs", { done: checking.pairsDone, total: checking.pairsTotal })
        : t("points.effects.checking")}
    </p>
  );
}

interface GapsProps {
  readonly before: CheckResult;
  /** null: the move is not checked yet. */
  readonly after: CheckResult | null;
  readonly unit: Unit;
}

function Gaps({ before, after, unit }: GapsProps) {
  const document = useApp((state) => state.document);
  const stopped = useApp((state) => state.checkStopped || state.workTrouble !== null);
  const rows = useMemo(() => (after ? pairEffects(before, after) : openPairs(before)), [before, after]);
  const twoSided = Object.keys(before.sides).length > 1;
  const shown = rows.slice(0, MOST_PAIRS);
  if (!document) return null;
  return (
    <>
      {after && <p className="move-leaves">{leavesText(after, "whole")}</p>}
      {after && isExact(after) && rows.length === 0 && <p className="fine quiet">{t("points.effects.noChange")}</p>}
      {rows.length > 0 && (
        <EffectTable
          head={t("points.effects.worst", { unit })}
          rows={shown.map((effect) => ({
            key: effect.key,
            name: twoSided
              ? t(`points.effects.onSides.${effect.sides}`, { pair: pairName({ document }, effect.before) })
              : pairName({ document }, effect.before),
            isNew: after !== null && isNewClash(effect),
            now: <Gap pair={effect.before} unit={unit} />,
            wouldBe: after ? (
              <Gap pair={effect.after} unit={unit} />
            ) : (
              t(`points.effects.${stopped ? "notChecked" : "waits"}`)
            ),
          }))}
        />
      )}
      {rows.length > shown.length && <p className="fine quiet">{restText(rows.slice(MOST_PAIRS), after !== null)}</p>}
    </>
  );
}

/** "and 3 more"; "and 21 more that stay clear". */
function restText(rest: readonly PairEffect[], isChecked: boolean): string {
  const allClear =
    isChecked && rest.every(({ before, after }) => before.verdict === "clear" && after.verdict === "clear");
  return t(`points.effects.${allClear ? "moreClear" : "more"}`, { number: rest.length });
}

function Wheel({ unit }: { unit: Unit }) {
  const document = useApp((state) => state.document);
  // the point follows the hand first
  const scene = useAppLater((state) => state.scene);
  const rows = useMemo(
    () => (document && scene ? wheelEffects(curvesOf(keptSceneOf(document)), curvesOf(scene)) : []),
    [document, scene],
  );
  return rows.length > 0 && <EffectTable head={t("points.effects.wheel")} rows={rows.map(wheelRow(unit))} />;
}

function Gap({ pair, unit }: { pair: PairVerdict; unit: Unit }) {
  return (
    <>
      <GapMark kind={pair.verdict} size={19} />
      <span className="unseen">{t(`points.effects.verdicts.${pair.verdict}`)} </span>
      {lengthNumber(pair.clearance_mm, unit, { signed: true })}
    </>
  );
}

const wheelRow =
  (unit: Unit) =>
  ({ reading, kind, before, after }: WheelEffect): EffectRow => {
    const text = (value: number | null) =>
      value === null ? t("points.effects.none") : kind === "angle" ? angleText(value) : lengthNumber(value, unit);
    return { key: reading, name: t(`points.readings.${reading}`), now: text(before), wouldBe: text(after) };
  };

function Lengths({ meaning, unit }: Pick<TriedMove, "meaning"> & { unit: Unit }) {
  const document = useApp((state) => state.document);
  const scene = useAppLater((state) => state.scene);
  if (meaning === "bolt") return <p className="fine quiet">{t("points.effects.keepsLength")}</p>;
  if (!document || !scene) return null;
  const rows = lengthEffects(keptSceneOf(document), scene, (id) => nameOf(id, scene)).map(
    ({ part, before_mm, after_mm }) => ({
      key: part,
      name: part,
      now: <Length length_mm={before_mm} unit={unit} />,
      wouldBe: <Length length_mm={after_mm} unit={unit} />,
    }),
  );
  return rows.length > 0 && <EffectTable head={t("points.effects.lengths", { unit })} rows={rows} />;
}

/** To be cut: in inches as the rule reads them too. */
function Length({ length_mm, unit }: { length_mm: number; unit: Unit }) {
  return (
    <>
      {lengthNumber(length_mm, unit)}
      {unit === "in" && <small>{t("points.about", { fraction: fractionText(length_mm) })}</small>}
    </>
  );
}

interface EffectRow {
  readonly key: string;
  readonly name: string;
  /** Touches with this move only. */
  readonly isNew?: boolean;
  readonly now: React.ReactNode;
  readonly wouldBe: React.ReactNode;
}

function EffectTable({ head, rows }: { head: string; rows: readonly EffectRow[] }) {
  return (
    <table className="effect-table">
      <thead>
        <tr>
          <th scope="col">{head}</th>
          <th scope="col">{t("points.effects.now")}</th>
          <th scope="col">{t("points.effects.wouldBe")}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.key} data-new={row.isNew ?? false}>
            <th scope="row">{row.isNew ? t("points.effects.isNew", { name: row.name }) : row.name}</th>
            <td>
              <span>{row.now}</span>
            </td>
            <td>
              <span aria-hidden="true" className="arrow">
                →
              </span>
              <b>{row.wouldBe}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
