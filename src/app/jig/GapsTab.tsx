import { useMemo } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import type { ClearanceSpread } from "../../studies/jig/clearances.ts";
import { linearScale } from "../curves/scale.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { pairText } from "../moves/moveText.ts";
import { pairKey, type Unit } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { StudyLine, useIsOutdated } from "../studies/StudyLine.tsx";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { lengthNumber, lengthText, wantedText } from "../words/number.ts";
import { gapAxis, mayMiss } from "./gapSpread.ts";
import { gapsQuestion, jigGaps, useJigLook } from "./jigStore.ts";

/** Every clearance with the tolerances of all mounts: "8 ± 3 mm: measure again". */
export function GapsTab({ document }: { document: SceneDocument }) {
  const asked = useJigLook((look) => look.asked);
  const question = useMemo(() => gapsQuestion(document, asked), [document, asked]);
  const isOutdated = useIsOutdated(jigGaps, question);
  const told = jigGaps.use((state) => state.told);
  const gaps = told?.result.clearances ?? [];
  const open = gaps.filter(mayMiss);
  const safe = gaps.filter((gap) => !mayMiss(gap));
  const axis = gapAxis(gaps);
  return (
    <>
      <StudyLine study={jigGaps} question={question} go={t("jig.gaps.go")} again={t("jig.gaps.again")} />
      {told && (
        <div className="jig-told" data-stale={isOutdated}>
          {gaps.length === 0 && <p>{t("jig.gaps.none")}</p>}
          {gaps.length > 0 && open.length === 0 && <p className="gear-clear">{t("jig.gaps.allKeep")}</p>}
          {gaps.length > 0 && <p className="tool-note">{t("jig.gaps.key")}</p>}
          <GapList gaps={open} axis={axis} />
          {safe.length > 0 && (
            <details className="loads-how">
              <summary>{t("jig.gaps.keep", { count: safe.length })}</summary>
              <GapList gaps={safe} axis={axis} />
            </details>
          )}
        </div>
      )}
    </>
  );
}

function GapList({ gaps, axis }: { gaps: readonly ClearanceSpread[]; axis: readonly [number, number] }) {
  return (
    <ul className="gap-spreads">
      {gaps.map((gap) => (
        <GapRow key={`${gap.side} ${gap.a} ${gap.b}`} gap={gap} axis={axis} />
      ))}
    </ul>
  );
}

function GapRow({ gap, axis }: { gap: ClearanceSpread; axis: readonly [number, number] }) {
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const { clearance_mm, worst_mm, required_mm, measureAgain, side } = gap;
  const kind = clearance_mm < 0 ? "clash" : clearance_mm < required_mm ? "tight" : "clear";
  const digits = unit === "in" ? 2 : 0;
  const told = Number.isFinite(worst_mm)
    ? t("jig.gaps.plusMinus", {
        gap: lengthNumber(clearance_mm, unit, { digits }),
        // never told smaller than it may be
        spread: lengthText(unit === "in" ? worst_mm : Math.ceil(worst_mm - 0.05), unit, { digits }),
      })
    : t("jig.gaps.unknown", { gap: lengthText(clearance_mm, unit, { digits }) });
  return (
    <li>
      <button
        type="button"
        className="gap-spread"
        onClick={() => app.getState().choosePair(pairKey({ side, a: gap.a, b: gap.b }))}
      >
        <GapMark kind={measureAgain ? "limit" : kind} size={22} />
        <span>
          <Rich text={t(`jig.gaps.${measureAgain ? "measureAgain" : kind}`, { pair: pairText(gap, scene), told })} />
          <small>{wantedOfGap(gap, unit)}</small>
          <GapPlot gap={gap} axis={axis} />
        </span>
      </button>
    </li>
  );
}

/** "left; 10 mm wanted; nine in ten 11.0 mm to 14.2 mm" */
function wantedOfGap({ side, required_mm, sampled_mm }: ClearanceSpread, unit: Unit): string {
  const values = { side: t(`words.sides.${side}`), wanted: wantedText(required_mm, unit) };
  const [, low, , high] = sampled_mm;
  if (!Number.isFinite(low)) return t("jig.gaps.wanted", values);
  return t("jig.gaps.sampled", { ...values, from: lengthText(low, unit), to: lengthText(high, unit) });
}

const WIDTH = 300;
const HEIGHT = 22;

/** The clearance with what the tolerances do to it, on the axis of all rows; what is wanted is dashed, touching is the ink line. */
function GapPlot({ gap, axis }: { gap: ClearanceSpread; axis: readonly [number, number] }) {
  const at = linearScale(axis[0], axis[1], 2, WIDTH - 2);
  const within = (value: number) => at(Math.min(axis[1], Math.max(axis[0], value)));
  const { clearance_mm, worst_mm, required_mm, sampled_mm } = gap;
  const [, low, , high] = sampled_mm;
  const worst = Number.isFinite(worst_mm) ? worst_mm : 0;
  return (
    <svg className="gap-plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      <rect className="field-of-plot" x={2} y={1} width={WIDTH - 4} height={HEIGHT - 2} />
      <path className="touch-line" d={`M${at(0)} 1V${HEIGHT - 1}`} />
      <path className="wanted-line" d={`M${within(required_mm)} 1V${HEIGHT - 1}`} />
      <path
        className="spread-worst"
        d={`M${within(clearance_mm - worst)} 5V17M${within(clearance_mm + worst)} 5V17M${within(clearance_mm - worst)} 11H${within(clearance_mm + worst)}`}
      />
      {Number.isFinite(low) && (
        <rect
          className="spread-nine"
          x={within(low)}
          y={6}
          width={Math.max(1, within(high) - within(low))}
          height={10}
        />
      )}
      <circle className="reading-mark" cx={within(clearance_mm)} cy={11} r="4" />
    </svg>
  );
}
