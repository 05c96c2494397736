import { type ReactNode, useMemo } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { SpringStudy } from "../../studies/runningGear/spring.ts";
import type { GearReport } from "../../work/gearReport.ts";
import { openForm } from "../loads/formsStore.ts";
import { forceText } from "../loads/quantity.ts";
import type { Unit } from "../store/state.ts";
import { useApp, useAppLater } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { lengthText, numberText } from "../words/number.ts";
import { BarSection } from "./BarSection.tsx";
import { Ask, Notes, Past } from "./gearPieces.tsx";
import { readingsHere } from "./live.ts";
import { NotTold, type SideRow, SideTable } from "./SideTable.tsx";
import { rateText, weightText } from "./springText.ts";
import { TravelEndsList } from "./TravelEndsList.tsx";

const LIMITS = ["damper-length", "stop", "strap", "coil-bind"] as const;
const NOTES = (["ratio", "rate", "static"] as const).map((note) => t(`gear.notes.spring.${note}`));

interface SpringTabProps {
  readonly scene: Scene;
  readonly document: SceneDocument;
  readonly report: GearReport;
  readonly stale: boolean;
}

/** Damper, spring, stop, strap and bar of both sides, and what ends the travel each way. */
export function SpringTab({ scene, document, report, stale }: SpringTabProps) {
  const ends = useMemo(() => report.sides.map((side) => side.ends), [report]);
  return (
    <>
      <p className="gear-caution">
        <Rich text={t("gear.spring.caution")} />
      </p>
      <Past report={report} limits={LIMITS} clear={t("gear.spring.clear")} />
      {scene.damper ? (
        <>
          <SpringTable scene={scene} report={report} stale={stale} />
          <Missing document={document} report={report} />
        </>
      ) : (
        <p className="tool-note">{t("gear.spring.none")}</p>
      )}
      <h3>{t("gear.ends.title")}</h3>
      <TravelEndsList scene={scene} ends={ends} />
      <BarSection scene={scene} report={report} />
      <Notes notes={NOTES} />
    </>
  );
}

function SpringTable({ scene, report, stale }: Omit<SpringTabProps, "document">) {
  const unit = useApp((state) => state.unit);
  const travel_mm = useAppLater((state) => state.travel_mm);
  const here = useMemo(() => {
    const read = (side: Side) => readingsHere(scene, side, { travel_mm: travel_mm[side], pose: "rest", share: 1 });
    return new Map(scene.sides.map((side) => [side, read(side)]));
  }, [scene, travel_mm]);
  const now: SideRow[] = [
    { name: t("gear.spring.now"), cell: (side) => given(here.get(side)?.damper_mm, (mm) => lengthText(mm, unit)) },
    { name: t("gear.spring.ratioNow"), cell: (side) => given(here.get(side)?.damperRatio, ratioText) },
  ];
  const rows = useMemo(() => rideRows(report, unit), [report, unit]);
  return (
    <SideTable
      name={t("gear.spring.table")}
      sides={report.sides.map(({ side }) => side)}
      rows={[...now, ...rows]}
      stale={stale}
    />
  );
}

/** At ride height. */
function rideRows(report: GearReport, unit: Unit): SideRow[] {
  const of = (side: Side): SpringStudy => report.sides.find((told) => told.side === side)!.spring;
  const length = (value_mm: number) => lengthText(value_mm, unit);
  return [
    {
      name: t("gear.spring.ratio"),
      note: t("gear.spring.ratioNote"),
      cell: (side) => given(of(side).ride.ratio, ratioText),
    },
    {
      name: t("gear.spring.rate"),
      note: t("gear.spring.rateNote"),
      cell: (side) => {
        const { wheelRate_N_per_mm, ofRatio_N_per_mm } = of(side).ride;
        return given(
          wheelRate_N_per_mm,
          (rate) => rateText(rate, unit),
          ofRatio_N_per_mm === null ? null : t("gear.spring.ofRatio", { rate: rateText(ofRatio_N_per_mm, unit, true) }),
        );
      },
    },
    {
      name: t("gear.spring.load"),
      cell: (side) => {
        const { staticLoad_N, sprungMass_kg } = of(side);
        return given(
          staticLoad_N,
          (load_N) => forceText(load_N, unit),
          sprungMass_kg === null ? null : t("gear.spring.sprung", { mass: weightText(sprungMass_kg, unit) }),
        );
      },
    },
    {
      name: t("gear.spring.frequency"),
      cell: (side) =>
        given(
          of(side).frequency_Hz,
          (hertz) => t("gear.values.Hz", { value: numberText(hertz, { digits: 2 }) }),
          of(side).takesAllAsSprung ? t("gear.spring.low") : null,
        ),
    },
    {
      name: t("gear.spring.force"),
      cell: (side) => given(of(side).ride.springForce_N, (force_N) => forceText(force_N, unit)),
    },
    {
      name: t("gear.spring.length"),
      cell: (side) =>
        given(of(side).ride.spring_mm, length, t(`gear.spring.${of(side).isMeasured ? "measured" : "workedOut"}`)),
    },
    {
      name: t("gear.spring.preload"),
      note: t("gear.spring.preloadNote"),
      cell: (side) => {
        const { pressedAtRide_mm, pressedOpen_mm } = of(side);
        const open =
          pressedOpen_mm === null
            ? null
            : pressedOpen_mm < 0
              ? t("gear.spring.offSeat", { length: length(-pressedOpen_mm) })
              : t("gear.spring.pressedOpen", { length: length(pressedOpen_mm) });
        return given(pressedAtRide_mm, length, open);
      },
    },
  ];
}

function given(
  value: number | null | undefined,
  text: (value: number) => string,
  more: string | null = null,
): ReactNode {
  if (value === null || value === undefined) return <NotTold />;
  return (
    <>
      {text(value)}
      {more && <small>{more}</small>}
    </>
  );
}

function ratioText(ratio: number): string {
  return numberText(ratio, { digits: 3 });
}

/** What the figures above, and the ends of the travel, want to know. */
function Missing({ document, report }: { document: SceneDocument; report: GearReport }) {
  const unit = useApp((state) => state.unit);
  const { damper } = document;
  const studies = report.sides.map(({ spring }) => spring);
  const tellMass = () => openForm({ what: "basics" });
  const knowsSpring = damper?.springRate_N_per_mm !== undefined && damper.springFree_mm !== undefined;
  const hasEnds =
    damper?.stopSolid_mm !== undefined && damper.strapTight_mm !== undefined && damper.springSolid_mm !== undefined;
  const apart = studies.filter(({ carriesMore_kg }) => carriesMore_kg !== null && Math.abs(carriesMore_kg) >= 0.5);
  return (
    <>
      {apart.map(({ side, carriesMore_kg }) => (
        <p key={side} className="gear-warning">
          {t(`gear.spring.carries.${carriesMore_kg! < 0 ? "less" : "more"}`, {
            side: t(`gear.sides.${side}`),
            mass: weightText(Math.abs(carriesMore_kg!), unit),
          })}
        </p>
      ))}
      {studies.some(({ staticLoad_N }) => staticLoad_N === null) && (
        <Ask text={t("gear.spring.askMass")} go={t("gear.spring.tellMass")} form={tellMass} />
      )}
      {studies.some(({ takesAllAsSprung }) => takesAllAsSprung) && (
        <Ask text={t("gear.spring.askUnsprung")} go={t("gear.spring.tellUnsprung")} form={tellMass} />
      )}
      {!knowsSpring && (
        <Ask text={t("gear.spring.askSpring")} go={t("gear.spring.tellSpring")} form={{ what: "spring" }} />
      )}
      {knowsSpring && !hasEnds && (
        <Ask text={t("gear.spring.askEnds")} go={t("gear.spring.tellEnds")} form={{ what: "spring" }} />
      )}
    </>
  );
}
