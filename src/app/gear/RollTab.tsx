import { useMemo } from "react";
import type { RollState } from "../../kinematics/roll.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { GearReport } from "../../work/gearReport.ts";
import { useCornerSheet } from "../corner/sheetStore.ts";
import { perTravel_mm, SIDE_VIEW_CURVES } from "../curves/curveKinds.ts";
import { showCurves } from "../curves/useCurveChoice.ts";
import type { Unit } from "../store/state.ts";
import { useApp, useAppLater } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { closeTools } from "../tools/toolsStore.ts";
import { angleText, lengthNumber, lengthText, numberText } from "../words/number.ts";
import { Ask, Notes } from "./gearPieces.tsx";
import { openGearForm } from "./gearStore.ts";
import { derivativesHere, fullScene, readingsHere } from "./live.ts";
import { NotTold, type SideRow, SideTable } from "./SideTable.tsx";

const NOTES = (["side", "roll", "alike"] as const).map((note) => t(`gear.notes.roll.${note}`));

interface RollTabProps {
  readonly scene: Scene;
  readonly document: SceneDocument;
  readonly report: GearReport;
  readonly stale: boolean;
}

/** Side view and roll: as the wheels stand now, and the axle as the body leans. */
export function RollTab({ scene, document, report, stale }: RollTabProps) {
  const unit = useApp((state) => state.unit);
  const travel_mm = useAppLater((state) => state.travel_mm);
  const full = useMemo(() => fullScene(scene, document), [scene, document]);
  const here = useMemo(
    () =>
      new Map(
        scene.sides.map((side) => [
          side,
          {
            ...readingsHere(scene, side, { travel_mm: travel_mm[side], pose: "rest", share: 1 }),
            ...derivativesHere(full, scene, side, travel_mm[side]),
          },
        ]),
      ),
    [full, scene, travel_mm],
  );
  const { vehicle } = document;
  return (
    <>
      <h3>{t("gear.roll.now")}</h3>
      <SideTable name={t("gear.roll.now")} sides={scene.sides} rows={rowsOf(here, unit)} />
      {vehicle ? (
        <button type="button" className="button gear-alone" onClick={() => openGearForm({ what: "vehicle" })}>
          {t("gear.vehicle.change")}
        </button>
      ) : (
        <Ask text={t("gear.roll.askVehicle")} go={t("gear.vehicle.tell")} form={{ what: "vehicle" }} />
      )}
      {vehicle && vehicle.rearBrakeShare === undefined && (
        <Ask text={t("gear.roll.askShare")} go={t("gear.vehicle.tellShare")} form={{ what: "vehicle" }} />
      )}
      <CurvesButton />
      <h3>{t("gear.roll.title")}</h3>
      <RollTable roll={report.roll} unit={unit} stale={stale} />
      <Notes notes={NOTES} />
    </>
  );
}

type Here = ReadonlyMap<Side, ReturnType<typeof readingsHere> & ReturnType<typeof derivativesHere>>;

function rowsOf(here: Here, unit: Unit): SideRow[] {
  const row = (
    name: string,
    note: string,
    read: (side: NonNullable<ReturnType<Here["get"]>>) => number | null,
    text: (value: number) => string,
  ): SideRow => ({
    name,
    note,
    cell(side) {
      const value = read(here.get(side)!);
      return value === null ? <NotTold /> : Number.isFinite(value) ? text(value) : "–";
    },
  });
  const percent = (value: number) =>
    t("curves.values.percent", { percent: numberText(value, { digits: 0, signed: true }) });
  const perTravel = (value: number) =>
    t(`curves.values.perTravel.${unit}`, {
      angle: angleText(value * perTravel_mm(unit), { digits: 3, signed: true }),
    });
  return [
    row(t("curves.names.antiSquat"), t("curves.meanings.antiSquat"), (p) => p.antiSquat_percent, percent),
    row(t("curves.names.antiLift"), t("curves.meanings.antiLift"), (p) => p.antiLift_percent, percent),
    row(
      t("curves.names.rollCentre"),
      t("curves.meanings.rollCentre"),
      (p) => p.rollCentre_mm,
      (value) => lengthText(value, unit, { signed: true }),
    ),
    row(t("curves.names.camberGain"), t("curves.meanings.camberGain"), (p) => p.camberGain_deg_per_mm, perTravel),
    row(t("curves.names.bumpSteer"), t("curves.meanings.bumpSteer"), (p) => p.bumpSteer_deg_per_mm, perTravel),
  ];
}

/** The same over the travel: beside the view they are in sight, elsewhere they take the sheet's place. */
function CurvesButton() {
  const show = (): void => {
    showCurves(SIDE_VIEW_CURVES);
    useCornerSheet.setState({ sheet: "curves" });
    if (document.querySelector(".curve-drawer") === null) closeTools();
  };
  return (
    <button type="button" className="button gear-alone" onClick={show}>
      {t("gear.roll.curves")}
    </button>
  );
}

function RollTable({ roll, unit, stale }: { roll: readonly RollState[]; unit: Unit; stale: boolean }) {
  const hasBar = roll.some(({ barTwist_deg }) => barTwist_deg !== null);
  const angle = (value: number) => angleText(value, { signed: true });
  const length = (value: number | null) => (value === null ? "–" : lengthNumber(value, unit, { signed: true }));
  return (
    <div className="roll-scroll">
      <table className="roll-table" data-stale={stale}>
        <caption className="unseen">{t("gear.roll.title")}</caption>
        <thead>
          <tr>
            <th scope="col">{t("gear.roll.heads.roll")}</th>
            <th scope="col">{t("gear.roll.heads.camber")}</th>
            <th scope="col">{t("gear.roll.heads.steer")}</th>
            <th scope="col">{t("gear.roll.heads.centre", { unit })}</th>
            {hasBar && <th scope="col">{t("gear.roll.heads.bar")}</th>}
          </tr>
        </thead>
        <tbody>
          {roll.map((state) => (
            <tr key={state.roll_deg} className="tabular">
              <th scope="row">{angleText(state.roll_deg, { digits: 0 })}</th>
              <td>
                {angle(state.outerCamber_deg)}
                <small>{angle(state.innerCamber_deg)}</small>
              </td>
              <td>{angle(state.rollSteer_deg)}</td>
              <td>
                {length(state.rollCentre_mm)}
                <small>{length(state.rollCentreAside_mm)}</small>
              </td>
              {hasBar && (
                <td>{state.barTwist_deg === null ? "–" : angleText(Math.abs(state.barTwist_deg), { digits: 1 })}</td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
