import { useState } from "react";
import type { PairVerdict } from "../../check/result.ts";
import { scale } from "../../maths/vec3.ts";
import type { Scene } from "../../scene/scene.ts";
import { clearPair } from "../moves/movesStore.ts";
import { stretchOf } from "../rule/bands.ts";
import { SectionDrawing } from "../section/SectionDrawing.tsx";
import type { Unit } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
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
          {t("corner.pair.closeLook")}
        </button>
        {(pair.verdict === "clash" || pair.verdict === "tight") && (
          <button type="button" className="button" onClick={() => clearPair(`${pair.a}/${pair.b}`)}>
            {t("corner.pair.whatClears")}
          </button>
        )}
        {pair.verdict !== "accepted" ? (
          <button type="button" className="button plain" onClick={() => setAsking(true)}>
            {t("corner.pair.leaveOut")}
          </button>
        ) : (
          <button type="button" className="button" onClick={() => app.getState().countPair(pair.a, pair.b)}>
            {t("corner.pair.count")}
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
  if (touches && pair.side !== "both")
    details.push([t("corner.pair.touches"), anyPose ? t("corner.pair.anyPose", { travel: touches }) : touches]);
  if (tight) details.push([t("corner.pair.tight"), travelRange(tight[0], tight[1], unit)]);
  details.push([t("corner.pair.wants"), wantedText(pair.required_mm, unit)]);
  // parts may turn towards each other on the way apart: what is missing is the least that will do
  if (pair.clearance_mm < pair.required_mm)
    details.push([
      t("corner.pair.needs"),
      unbroken(t("corner.pair.atLeast", { amount: lengthText(pair.required_mm - pair.clearance_mm, unit) })),
    ]);
  if (anyPose) for (const [pose, worst_mm] of poses) details.push([capital(poseName(pose)), depthText(worst_mm, unit)]);
  for (const pose of pair.farther ?? []) details.push([capital(poseName(pose)), t("corner.pair.fartherOff")]);
  if (twin) {
    const other = twin.isAtLeast
      ? t("corner.pair.off", { size: pairAmount(twin, unit) })
      : t(`corner.pair.${twin.clearance_mm < 0 ? "deepAt" : "offAt"}`, {
          size: lengthNumber(Math.abs(twin.clearance_mm), unit),
          where: travelText(twin.at.travel_mm, unit),
        });
    details.push([t(`corner.pair.sides.${twin.side}`), other]);
  }
  if (pair.clearance_mm < 0) details.push([t("corner.pair.wayApart"), wayApart(pair, scene, unit)]);
  if (pair.measure === "sampled") details.push([t("corner.pair.depth"), t("corner.pair.sampled")]);
  if (pair.within_mm)
    details.push([t("corner.pair.scan"), t("corner.pair.thinned", { amount: lengthText(pair.within_mm, unit) })]);
  const { growth_mm, bulge_mm } = scene?.wheel ?? {};
  if ((pair.a === "tyre" || pair.b === "tyre") && (growth_mm || bulge_mm))
    details.push([
      t("corner.pair.allows"),
      t("corner.pair.tyre", { growth: lengthText(growth_mm ?? 0, unit), bulge: lengthText(bulge_mm ?? 0, unit) }),
    ]);
  if (pair.give_mm)
    details.push([t("corner.pair.allows"), t("corner.pair.give", { amount: lengthText(pair.give_mm, unit) })]);
  for (const id of pair.open ?? [])
    details.push([t("corner.pair.surface"), t("corner.pair.open", { part: nameWithin(id, scene) })]);
  return details;
}

/** "move upper link 11.3 mm forward and down": the part that the sentence speaks of, by the depth, to a bare touch. */
function wayApart(pair: PairVerdict, scene: Scene | null, unit: Unit): string {
  const [mover] = namedFirst(pair, scene);
  const way = directionText(scale(pair.partingOfA, mover === pair.a ? 1 : -1), pair.side);
  return t("corner.pair.move", { part: nameWithin(mover, scene), amount: lengthText(-pair.clearance_mm, unit), way });
}

function unbroken(text: string): string {
  return text.replaceAll(" ", "\u00a0");
}

function depthText(clearance_mm: number, unit: Unit): string {
  return t(`corner.pair.${clearance_mm < 0 ? "deep" : "off"}`, { size: lengthNumber(Math.abs(clearance_mm), unit) });
}
