import { t } from "../text/text.ts";
import type { TravelRuleProps } from "./ruleProps.ts";

type Known = Pick<TravelRuleProps, "large" | "still" | "anyPose" | "stale" | "bands" | "onStill">;

/**
 * What the lane cannot say by itself: for which engine poses it is painted, and that engine and frame meet at every travel. A way to the worst
 * of those for a pointer; for a finger it would be too small, and the ledger has the way.
 */
export function RuleCaption({ large, still, anyPose, stale, bands, onStill }: Known) {
  if (!still && !(anyPose && bands.length > 0)) return null;
  return (
    <div className={stale ? "rule-caption stale" : "rule-caption"}>
      {still && large && (
        <b className="still-word" data-kind={still.kind}>
          {t(`rule.still.${still.kind}`)}
        </b>
      )}
      {still && !large && (
        <button
          type="button"
          className="still-word"
          data-kind={still.kind}
          title={t("rule.stillHint")}
          onClick={() => onStill(still)}
        >
          {t(`rule.still.${still.kind}`)}
        </button>
      )}
      {anyPose && bands.length > 0 && <span title={t("rule.anyPoseHint")}>{t("rule.anyPose")}</span>}
    </div>
  );
}
