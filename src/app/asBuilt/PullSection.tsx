import { useMemo } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import type { PullCase, WeldPull } from "../../studies/asBuilt/weldPull.ts";
import { SizeField } from "../parts/SizeField.tsx";
import { useApp } from "../store/useApp.ts";
import { StudyLine, useIsOutdated } from "../studies/StudyLine.tsx";
import { t } from "../text/text.ts";
import { angleText } from "../words/number.ts";
import { pullQuestion, pullStudy, useAsBuiltLook } from "./asBuiltStore.ts";
import { RecoveryText } from "./RecoveryText.tsx";
import { memberMounts } from "./welded.ts";

/** A rehearsal before welding: every mount pulled the worst way, and whether what can be set gets it back. */
export function PullSection({ document }: { document: SceneDocument }) {
  const pull_mm = useAsBuiltLook((state) => state.pull_mm);
  const means = useAsBuiltLook((state) => state.means);
  const unit = useApp((state) => state.unit);
  const question = useMemo(() => {
    const points = memberMounts(document).map(({ name }) => name);
    return pullQuestion(document, points, { means, pull_mm });
  }, [document, means, pull_mm]);
  const isOutdated = useIsOutdated(pullStudy, question);
  const told = pullStudy.use((state) => state.told);
  return (
    <details className="loads-how">
      <summary>{t("asBuilt.pull.title")}</summary>
      <p>{t("asBuilt.pull.lead")}</p>
      <SizeField
        label={t("asBuilt.pull.amount")}
        value_mm={pull_mm}
        unit={unit}
        trouble={null}
        onChange={(value) => useAsBuiltLook.setState({ pull_mm: Math.min(value, FARTHEST_mm) })}
      />
      <StudyLine study={pullStudy} question={question} go={t("asBuilt.pull.go")} again={t("asBuilt.pull.again")} />
      {told && (
        <div className="built" data-stale={isOutdated}>
          <Cases pull={told.result} document={document} hasMeans={told.question.means.length > 0} />
        </div>
      )}
    </details>
  );
}

/** The rehearsal takes no more. */
const FARTHEST_mm = 50;

function Cases({ pull, document, hasMeans }: { pull: WeldPull; document: SceneDocument; hasMeans: boolean }) {
  const unit = useApp((state) => state.unit);
  const { meant, cases, isRecovered } = pull;
  const most = Math.max(0.01, ...cases.map((each) => Math.abs(offOf(each, meant) ?? 0)));
  return (
    <>
      {hasMeans && (
        <p className={isRecovered ? "gear-clear" : "gear-past"}>
          {t(`asBuilt.pull.${isRecovered ? "recovered" : "notRecovered"}`)}
        </p>
      )}
      <ul className="built-gaps">
        {cases.map((each) => {
          const off = offOf(each, meant);
          return (
            <li key={each.worst} className="jig-place">
              <b>{t(`asBuilt.pull.worst.${each.worst}`)}</b>
              {off !== null && (
                <span className="jig-share-bar" aria-hidden="true">
                  <span style={{ width: `${(100 * Math.abs(off)) / most}%` }} />
                </span>
              )}
              <p className="tabular">
                {each.toe_deg === null || each.camber_deg === null
                  ? t("asBuilt.pull.apart")
                  : t("asBuilt.pull.angles", {
                      toe: angleText(each.toe_deg, { signed: true }),
                      camber: angleText(each.camber_deg, { signed: true }),
                    })}
              </p>
              {hasMeans && each.recovery && <RecoveryText recovery={each.recovery} document={document} unit={unit} />}
            </li>
          );
        })}
      </ul>
    </>
  );
}

/** How far the angle that the case is the worst of is off. */
function offOf({ worst, toe_deg, camber_deg }: PullCase, meant: WeldPull["meant"]): number | null {
  if (toe_deg === null || camber_deg === null) return null;
  return worst === "toe-in" || worst === "toe-out" ? toe_deg - meant.toe_deg : camber_deg - meant.camber_deg;
}
