import { useState } from "react";
import type { PairVerdict } from "../../check/result.ts";
import { stretchOf } from "../rule/bands.ts";
import { SectionDrawing } from "../section/SectionDrawing.tsx";
import type { Unit } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { directionText } from "../words/direction.ts";
import { capital, poseName } from "../words/names.ts";
import { lengthNumber, lengthText, wantedText } from "../words/number.ts";
import { travelRange, travelText } from "../words/travel.ts";
import { LeaveOutDialog } from "./LeaveOutDialog.tsx";
import type { PairRow } from "./ledgerRows.ts";

/** What the sentence of the chosen row leaves out. */
export function PairDetails({ row: { pair, twin } }: { row: PairRow }) {
  const unit = useApp((state) => state.unit);
  const closeLook = useApp((state) => state.closeLook);
  const [asking, setAsking] = useState(false);
  return (
    <div className="row-details">
      <SectionDrawing pair={pair} />
      <dl className="tabular">
        {detailsOf(pair, twin, unit).map(([term, value]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <div className="row-actions">
        <button
          type="button"
          className="button"
          aria-pressed={closeLook}
          onClick={() => app.getState().setCloseLook(!closeLook)}
        >
          Close look
        </button>
        {pair.verdict !== "accepted" ? (
          <button type="button" className="button plain" onClick={() => setAsking(true)}>
            Leave this pair out…
          </button>
        ) : (
          <button type="button" className="button" onClick={() => app.getState().countPair(pair.a, pair.b)}>
            Count it again
          </button>
        )}
      </div>
      <LeaveOutDialog pair={pair} open={asking} onClose={() => setAsking(false)} />
    </div>
  );
}

function detailsOf(pair: PairVerdict, twin: PairVerdict | null, unit: Unit): (readonly [string, string])[] {
  const details: (readonly [string, string])[] = [];
  const touches = pair.clashTravel_mm.map(([from, to]) => travelRange(from, to, unit)).join(", ");
  const tight = touches || pair.side === "both" ? null : stretchOf(pair);
  if (touches && pair.side !== "both") details.push(["Touches", touches]);
  if (tight) details.push(["Tight", travelRange(tight[0], tight[1], unit)]);
  details.push(["Wants", wantedText(pair.required_mm, unit)]);
  const poses = Object.entries(pair.byPose);
  if (poses.length > 1)
    for (const [pose, worst_mm] of poses) details.push([capital(poseName(pose)), depthText(worst_mm, unit)]);
  if (twin) {
    const other = `${depthText(twin.clearance_mm, unit)} at ${travelText(twin.at.travel_mm, unit)}`;
    details.push([`${capital(twin.side)} side`, other]);
  }
  if (pair.clearance_mm < 0) {
    const way = directionText(pair.partingOfA, pair.side);
    details.push(["Way apart here", `${lengthText(-pair.clearance_mm, unit)} ${way}`]);
  }
  if (pair.measure === "sampled") details.push(["Depth", "sampled every 2 mm (a scan)"]);
  return details;
}

function depthText(clearance_mm: number, unit: Unit): string {
  const size = lengthNumber(Math.abs(clearance_mm), unit);
  return clearance_mm < 0 ? `${size} deep` : `${size} off`;
}
