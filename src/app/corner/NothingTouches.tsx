import { useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { namedFirst, pairAmount } from "../words/sentences.ts";
import { isPairRow, type LedgerRow } from "./ledgerRows.ts";

/** "Nothing touches. Closest: upper link and sump, 11.4 mm."; never in that tone before all is checked as it is now. */
export function NothingTouches({ rows }: { rows: readonly LedgerRow[] }) {
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const partial = useApp((state) => state.partial);
  const stale = useApp((state) => state.stale);
  const checking = useApp((state) => state.checking);
  // how little is known while pairs are still to be checked
  const soFar = checking ? "checking" : "part";
  const counted = { done: checking?.pairsDone ?? 0, total: checking?.pairsTotal ?? 0 };
  const pairs = rows.filter(isPairRow).filter(({ kind }) => kind !== "accepted");
  const closest = pairs[0]?.pair;
  if (!closest)
    return (
      <p className="nothing-touches">{partial ? t(`corner.nothing.${soFar}`, counted) : t("corner.nothing.none")}</p>
    );
  const [first, second] = namedFirst(closest, scene);
  return (
    <p className="nothing-touches">
      <Rich
        text={t(`corner.nothing.closest.${partial ? soFar : stale ? "before" : "all"}`, {
          ...counted,
          a: nameOf(first, scene),
          b: nameWithin(second, scene),
          amount: pairAmount(closest, unit),
        })}
      />
    </p>
  );
}
