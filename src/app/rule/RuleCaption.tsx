import type { TravelRuleProps } from "./TravelRule.tsx";

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
          engine and frame: {still.kind}
        </b>
      )}
      {still && !large && (
        <button
          type="button"
          className="still-word"
          data-kind={still.kind}
          title="In the engine pose that is shown or on the way to it, whatever the wheels do. Press for the worst."
          onClick={() => onStill(still)}
        >
          engine and frame: {still.kind}
        </button>
      )}
      {anyPose && bands.length > 0 && (
        <span title="The painted travel touches or is tight in at least one engine pose, not only in the one that is shown.">
          any engine pose
        </span>
      )}
    </div>
  );
}
