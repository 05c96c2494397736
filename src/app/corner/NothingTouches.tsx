import { useApp } from "../store/useApp.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { lengthText } from "../words/number.ts";
import { namedFirst } from "../words/sentences.ts";
import { isPairRow, type LedgerRow } from "./ledgerRows.ts";

/** "Nothing touches. Closest: upper link and sump, 11.4 mm." */
export function NothingTouches({ rows }: { rows: readonly LedgerRow[] }) {
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const partial = useApp((state) => state.partial);
  const pairs = rows.filter(isPairRow).filter(({ kind }) => kind !== "accepted");
  const closest = pairs[0]?.pair;
  if (!closest)
    return (
      <p className="nothing-touches">
        {partial ? "Nothing found so far." : "No two parts of this scene can move against each other."}
      </p>
    );
  const [first, second] = namedFirst(closest, scene);
  return (
    <p className="nothing-touches">
      <b>Nothing touches{partial ? " so far" : ""}.</b> Closest: {nameOf(first, scene)} and {nameWithin(second, scene)},{" "}
      {lengthText(closest.clearance_mm, unit)}.
    </p>
  );
}
