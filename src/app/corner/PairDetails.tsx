import { useState } from "react";
import type { PairVerdict } from "../../check/result.ts";
import { scale } from "../../maths/vec3.ts";
import type { Scene } from "../../scene/scene.ts";
import { stretchOf } from "../rule/bands.ts";
import { SectionDrawing } from "../section/SectionDrawing.tsx";
import type { Unit } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { directionText } from "../words/direction.ts";
import { capital, nameWithin, poseName } from "../words/names.ts";
import { lengthNumber, lengthText, wantedText } from "../words/number.ts";
import { namedFirst, pairAmount } from "../words/sentences.ts";
import { travelRange, travelText } from "../words/travel.ts";
import { LeaveOutDialog } from "./LeaveOutDialog.tsx";
import type { PairRow } from "./ledgerRows.ts";

/** What the sentence of the chosen row leaves out. */
export function PairDetails({ row: { pair, twin } }: { row: PairRow }) {
  const unit = useApp((state) => state.unit);
  const scene = useApp((state) => state.scene);
  const closeLook = useApp((state) => state.closeLook);
  const [asking, setAsking] = useState(false);
  return (
    <div className="row-details">
      <SectionDrawing pair={pair} />
      <dl className="tabular">
        {detailsOf(pair, twin, scene, unit).map(([term, value]) => (
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

function detailsOf(
  pair: PairVerdict,
  twin: PairVerdict | null,
  scene: Scene | null,
  unit: Unit,
): (readonly [string, string])[] {
  const details: (readonly [string, string])[] = [];
  const poses = Object.entries(pair.byPose);
  const anyPose = poses.length > 1 || pair.farther !== undefined;
  const touches = pair.clashTravel_mm.map(([from, to]) => travelRange(from, to, unit)).join(", ");
  const tight = touches || pair.side === "both" ? null : stretchOf(pair);
  if (touches && pair.side !== "both") details.push(["Touches", anyPose ? `${touches} in any engine pose` : touches]);
  if (tight) details.push(["Tight", travelRange(tight[0], tight[1], unit)]);
  details.push(["Wants", wantedText(pair.required_mm, unit)]);
  // parts may turn towards each other on the way apart: what is missing is the least that will do
  if (pair.clearance_mm < pair.required_mm)
    details.push(["To clear it needs", unbroken(`at least ${lengthText(pair.required_mm - pair.clearance_mm, unit)}`)]);
  if (anyPose) for (const [pose, worst_mm] of poses) details.push([capital(poseName(pose)), depthText(worst_mm, unit)]);
  for (const pose of pair.farther ?? []) details.push([capital(poseName(pose)), "farther off"]);
  if (twin) {
    const other = twin.isAtLeast
      ? `${pairAmount(twin, unit)} off`
      : `${depthText(twin.clearance_mm, unit)} at ${travelText(twin.at.travel_mm, unit)}`;
    details.push([`${capital(twin.side)} side`, other]);
  }
  if (pair.clearance_mm < 0) details.push(["Way apart here", wayApart(pair, scene, unit)]);
  if (pair.measure === "sampled") details.push(["Depth", "sampled every 2 mm (a scan)"]);
  if (pair.within_mm)
    details.push(["Scan", `thinned out: told ${lengthText(pair.within_mm, unit)} nearer than checked`]);
  for (const id of pair.open ?? [])
    details.push(["Surface", `${nameWithin(id, scene)} is open: what is behind it is not found`]);
  return details;
}

/** "move upper link 11.3 mm forward and down": the part that the sentence speaks of, by the depth, to a bare touch. */
function wayApart(pair: PairVerdict, scene: Scene | null, unit: Unit): string {
  const [mover] = namedFirst(pair, scene);
  const way = directionText(scale(pair.partingOfA, mover === pair.a ? 1 : -1), pair.side);
  return `move ${nameWithin(mover, scene)} ${lengthText(-pair.clearance_mm, unit)} ${way}`;
}

function unbroken(text: string): string {
  return text.replaceAll(" ", "\u00a0");
}

function depthText(clearance_mm: number, unit: Unit): string {
  const size = lengthNumber(Math.abs(clearance_mm), unit);
  return clearance_mm < 0 ? `${size} deep` : `${size} off`;
}
