import { useMemo } from "react";
import type { Scene } from "../../scene/scene.ts";
import { LEAST_LINK_deg } from "../../studies/runningGear/spring.ts";
import type { GearReport } from "../../work/gearReport.ts";
import { useApp, useAppLater } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { angleText, lengthText } from "../words/number.ts";
import { travelText } from "../words/travel.ts";
import { barHere } from "./live.ts";
import { GoThere } from "./SideTable.tsx";

/** The anti-roll bar's twist as the wheels stand, how far its arm turns, and whether a drop link comes near to going over centre. */
export function BarSection({ scene, report }: { scene: Scene; report: GearReport }) {
  const unit = useApp((state) => state.unit);
  const travel_mm = useAppLater((state) => state.travel_mm);
  const turns = useMemo(
    () => scene.sides.map((side) => barHere(scene, side, travel_mm[side])?.turn_deg ?? null),
    [scene, travel_mm],
  );
  // both sides' bars are images of each other
  const [told] = report.sides;
  const bar = told?.spring.bar;
  if (!told || !bar) return null;
  const { curve, nearest, isNearCentre } = bar;
  const [first, last] = [curve[0]!, curve.at(-1)!];
  const [left, right] = turns;
  return (
    <>
      <h3>{t("gear.bar.title")}</h3>
      {left != null && right != null && (
        <p>{t("gear.bar.twist", { twist: angleText(Math.abs(left - right), { digits: 1 }) })}</p>
      )}
      <p>
        {t("gear.bar.turn", {
          from: angleText(first.turn_deg, { digits: 1 }),
          droop: travelText(first.travel_mm, unit),
          to: angleText(last.turn_deg, { digits: 1 }),
          bump: travelText(last.travel_mm, unit),
        })}
      </p>
      <p className={isNearCentre ? "gear-warning" : undefined}>
        {t(`gear.bar.${isNearCentre ? "nearCentre" : "link"}`, {
          angle: angleText(nearest.link_deg, { digits: 1 }),
          where: travelText(nearest.travel_mm, unit),
          lever: lengthText(nearest.lever_mm, unit),
          least: angleText(LEAST_LINK_deg, { digits: 0 }),
        })}
      </p>
      <GoThere
        side={told.side}
        at={{ travel_mm: nearest.travel_mm, pose: "rest" }}
        value={angleText(nearest.link_deg, { digits: 1 })}
      />
    </>
  );
}
