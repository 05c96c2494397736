import { memo, useMemo } from "react";
import type { Scene, Side } from "../../scene/scene.ts";
import type { Extreme, ShaftStudy } from "../../studies/runningGear/shaft.ts";
import type { GearReport } from "../../work/gearReport.ts";
import { SizeField } from "../parts/SizeField.tsx";
import { useApp, useAppLater } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { engineText } from "../words/names.ts";
import { angleText, lengthText } from "../words/number.ts";
import { amountText } from "../words/sentences.ts";
import { travelText } from "../words/travel.ts";
import { Ask, Notes, Past } from "./gearPieces.tsx";
import { useGearLook } from "./gearStore.ts";
import { readingsHere } from "./live.ts";
import { axesOf, PlungePlot } from "./PlungePlot.tsx";
import { GoThere, NotTold, type SideRow, SideTable, Spare } from "./SideTable.tsx";

const NOTES = (["centres", "measure", "mounts"] as const).map((note) => t(`gear.notes.shaft.${note}`));
const LIMITS = ["shaft-length", "inner-angle", "outer-angle"] as const;
/** Two plots stand beside each other in the sheet of a wide window, and in a phone's. */
const PLOT_WIDTH = 176;

/** Both driveshafts: how long they get, how far their joints bend, what is to spare, and which length to order. */
export function ShaftTab({ scene, report, stale }: { scene: Scene; report: GearReport; stale: boolean }) {
  const { driveshaft } = scene;
  const unit = useApp((state) => state.unit);
  const travel_mm = useAppLater((state) => state.travel_mm);
  const pose = useAppLater((state) => state.pose);
  const share = useAppLater((state) => state.share);
  const here = useMemo(() => {
    const bySide = new Map(
      scene.sides.map((side) => [side, readingsHere(scene, side, { travel_mm: travel_mm[side], pose, share })]),
    );
    return (side: Side) => bySide.get(side)!;
  }, [scene, travel_mm, pose, share]);
  const studies = useMemo(() => report.sides.flatMap(({ shaft }) => shaft ?? []), [report]);
  const inner = driveshaft?.inner;
  const axes = useMemo(() => inner && studies.length > 0 && axesOf(studies, inner), [studies, inner]);
  if (!driveshaft || !axes) return <p className="tool-note">{t("gear.shaft.none")}</p>;
  const of = (side: Side) => studies.find((study) => study.side === side)!;
  const sides = studies.map(({ side }) => side);
  const degrees = (value: number) => angleText(value, { digits: 1 });
  const extreme = (side: Side, { at }: Extreme, text: string) => <GoThere side={side} at={at} value={text} />;
  const toEnd = (spare_mm: number | null) =>
    spare_mm === null ? <NotTold /> : <Spare spare={spare_mm} text={amountText(spare_mm, unit)} />;
  const toLimit = (side: Side, worst: Extreme, limit_deg: number | null) => {
    const value = degrees(worst.value);
    const limit = limit_deg === null ? t("gear.notTold") : degrees(limit_deg);
    return extreme(side, worst, t("gear.ofLimit", { value, limit }));
  };
  const rows: SideRow[] = [
    { name: t("gear.shaft.now"), cell: (side) => lengthText(here(side).shaft_mm!, unit) },
    {
      name: t("gear.shaft.shortest"),
      cell: (side) => extreme(side, of(side).shortest, lengthText(of(side).shortest.value, unit)),
    },
    {
      name: t("gear.shaft.toShort"),
      note: t("gear.shaft.bottoms"),
      cell(side) {
        const { shortest_mm } = driveshaft.inner[side];
        return toEnd(shortest_mm === null ? null : of(side).shortest.value - shortest_mm);
      },
    },
    {
      name: t("gear.shaft.longest"),
      cell: (side) => extreme(side, of(side).longest, lengthText(of(side).longest.value, unit)),
    },
    {
      name: t("gear.shaft.toLong"),
      note: t("gear.shaft.letsGo"),
      cell(side) {
        const { longest_mm } = driveshaft.inner[side];
        return toEnd(longest_mm === null ? null : longest_mm - of(side).longest.value);
      },
    },
    { name: t("gear.shaft.inner"), cell: (side) => degrees(here(side).innerAngle_deg!) },
    {
      name: t("gear.shaft.innerWorst"),
      note: t("gear.shaft.ofWhat"),
      cell: (side) => toLimit(side, of(side).innerAngle, driveshaft.inner[side].angleLimit_deg),
    },
    { name: t("gear.shaft.outer"), cell: (side) => degrees(here(side).outerAngle_deg!) },
    {
      name: t("gear.shaft.outerWorst"),
      note: t("gear.shaft.ofWhat"),
      cell: (side) => toLimit(side, of(side).outerAngle, driveshaft.outerAngleLimit_deg),
    },
    {
      name: t("gear.shaft.difference"),
      note: t("gear.shaft.differenceNote"),
      cell: (side) => degrees(Math.abs(here(side).innerAngle_deg! - here(side).outerAngle_deg!)),
    },
    {
      name: t("gear.shaft.differenceWorst"),
      cell: (side) => extreme(side, of(side).difference, degrees(of(side).difference.value)),
    },
  ];
  return (
    <>
      <Past report={report} limits={LIMITS} clear={t("gear.shaft.clear")} />
      <SideTable name={t("gear.shaft.table")} sides={sides} rows={rows} stale={stale} />
      <h3>{t("gear.shaft.plot.title")}</h3>
      <div className="plunge-plots">
        {studies.map((study) => {
          const { shaft_mm, innerAngle_deg } = here(study.side);
          return (
            <PlungePlot
              key={study.side}
              study={study}
              inner={driveshaft.inner[study.side]}
              unit={unit}
              width={PLOT_WIDTH}
              axes={axes}
              now={{ plunge_mm: shaft_mm! - study.ride.shaft_mm, angle_deg: innerAngle_deg! }}
            />
          );
        })}
      </div>
      <p className="tool-note">{t("gear.shaft.plot.key")}</p>
      <h3>{t("gear.order.title")}</h3>
      <SpareWanted />
      {studies.map((study) => (
        <Order key={study.side} study={study} />
      ))}
      {studies.some(({ crosses }) => crosses) && <h3>{t("gear.cross.title")}</h3>}
      {studies.map((study) => (
        <Crosses key={study.side} study={study} />
      ))}
      <Notes notes={NOTES} />
    </>
  );
}

function SpareWanted() {
  const unit = useApp((state) => state.unit);
  const spare_mm = useGearLook((look) => look.spare_mm);
  return (
    <>
      <SizeField
        label={t("gear.order.spare")}
        value_mm={spare_mm}
        unit={unit}
        trouble={null}
        onChange={(wanted_mm) => useGearLook.setState({ spare_mm: wanted_mm })}
      />
      <p className="tool-note">{t("gear.order.spareNote")}</p>
    </>
  );
}

/** Which length keeps the wanted plunge at both ends, or what is missing to tell it. */
const Order = memo(function Order({ study: { side, order } }: { study: ShaftStudy }) {
  const unit = useApp((state) => state.unit);
  const { used_mm, stroke_mm, spareWanted_mm, change_mm, changeRange_mm, bar_mm, barRange_mm } = order;
  const length = (value_mm: number) => lengthText(value_mm, unit);
  const signed = (value_mm: number) => lengthText(value_mm, unit, { signed: true });
  const spare = length(spareWanted_mm);
  const head = t(`gear.sides.${side}`);
  if (stroke_mm === null || change_mm === null) {
    const values = { side: head, used: length(used_mm), needs: length(used_mm + 2 * spareWanted_mm), spare };
    return <Ask text={t("gear.order.askEnds", values)} go={t("gear.order.tellShaft")} form={{ what: "shaft" }} />;
  }
  const each = length((stroke_mm - used_mm) / 2);
  const change = signed(change_mm);
  return (
    <div className="gear-order">
      <p>
        <b>{head}: </b>
        {bar_mm === null
          ? t("gear.order.change", { change, each })
          : t("gear.order.bar", { bar: length(bar_mm), change, each })}{" "}
        {changeRange_mm === null
          ? t("gear.order.noRange", { spare, used: length(used_mm), stroke: length(stroke_mm) })
          : barRange_mm === null
            ? t("gear.order.changeRange", { from: signed(changeRange_mm[0]), to: signed(changeRange_mm[1]), spare })
            : t("gear.order.barRange", { from: length(barRange_mm[0]), to: length(barRange_mm[1]), spare })}
      </p>
      {bar_mm === null && <Ask text={t("gear.order.askBar")} go={t("gear.order.tellBar")} form={{ what: "shaft" }} />}
    </div>
  );
});

const Crosses = memo(function Crosses({ study: { side, crosses } }: { study: ShaftStudy }) {
  const unit = useApp((state) => state.unit);
  if (!crosses) return null;
  const { inner, outer, atRide, worst, lag_deg } = crosses;
  const percent = ({ fastest, slowest }: { fastest: number; slowest: number }) =>
    (100 * (fastest - slowest)).toFixed(2);
  const lag = [lag_deg.inner, lag_deg.outer].flatMap((value) => (value === null ? [] : angleText(value)));
  return (
    <p>
      <b>{t(`gear.sides.${side}`)}: </b>
      {t(`gear.cross.${inner && outer ? "both" : inner ? "inner" : "outer"}`)}{" "}
      {t("gear.cross.uneven", {
        ride: percent(atRide),
        lag: lag.join(" / "),
        worst: percent(worst),
        where: travelText(worst.at.travel_mm, unit),
        engine: engineText(worst.at.pose, worst.at.share),
      })}
    </p>
  );
});
