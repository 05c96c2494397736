import { useApp } from "../store/useApp.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { namedFirst, pairAmount } from "../words/sentences.ts";
import { isPairRow, type LedgerRow } from "./ledgerRows.ts";

/** "Nothing touches. Closest: upper link and sump, 11.4 mm."; never in that tone before all is checked as it is now. */
export function NothingTouches({ rows }: { rows: readonly LedgerRow[] }) {
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const partial = useApp((state) => state.partial);
  const stale = useApp((state) => state.stale);
  const pairs = rows.filter(isPairRow).filter(({ kind }) => kind !== "accepted");
  const closest = pairs[0]?.pair;
  if (!closest)
    return (
      <p className="nothing-touches">
        {partial ? <SoFar /> : "No two parts of this scene can move against each other."}
      </p>
    );
  const [first, second] = namedFirst(closest, scene);
  return (
    <p className="nothing-touches">
      {partial ? <SoFar /> : stale ? "Before your change nothing touched." : <b>Nothing touches.</b>} Closest
      {partial ? " so far" : ""}: {nameOf(first, scene)} and {nameWithin(second, scene)}, {pairAmount(closest, unit)}.
    </p>
  );
}

/** How little is known while pairs are still to be checked. */
function SoFar() {
  const checking = useApp((state) => state.checking);
  if (!checking) return "Only part was checked: nothing found in it.";
  return `Checking… nothing found yet in ${checking.pairsDone} of ${checking.pairsTotal} pairs.`;
}
