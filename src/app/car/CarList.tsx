import type { SceneDocument } from "../../scene/document.ts";
import { basicsText } from "../loads/GivenList.tsx";
import { useLoadsLook } from "../loads/loadsStore.ts";
import { useApp } from "../store/useApp.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { useTools } from "../tools/toolsStore.ts";
import { nameOf } from "../words/names.ts";
import { lengthText, wantedText } from "../words/number.ts";
import { type CarSheet, openCar } from "./carStore.ts";

/** The loads have a tool of their own. */
function openGiven(): void {
  useLoadsLook.setState({ tab: "given" });
  useTools.setState({ open: "loads" });
}

/** What is no part, each with what it is now; pressing one opens its sheet. */
export function CarList({ document }: { document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const { travel, clearances, members, powertrain, datums = [], sides } = document;
  const rules = clearances.rules?.length ?? 0;
  const list = (names: readonly string[]) => (names.length === 0 ? t("car.none") : listText(names, "unit"));
  const { tyreGrowth_mm = 0, tyreBulge_mm = 0, give = [] } = document.allowances ?? {};
  const allowed = [
    ...(tyreGrowth_mm > 0 ? [t("car.allowNow.growth", { amount: lengthText(tyreGrowth_mm, unit) })] : []),
    ...(tyreBulge_mm > 0 ? [t("car.allowNow.bulge", { amount: lengthText(tyreBulge_mm, unit) })] : []),
    ...give.map(({ on, mm }) => t("car.allowNow.give", { part: nameOf(on, document), amount: lengthText(mm, unit) })),
  ];
  const rows: readonly (readonly [CarSheet, string, string])[] = [
    ["members", t("car.members.title"), list(members.map(({ id }) => nameOf(id, document)))],
    [
      "travel",
      t("car.travel.title"),
      t("car.travelNow", {
        bump: lengthText(travel.bump_mm, unit),
        droop: lengthText(travel.droop_mm, unit),
        sides: t(`car.sides.${sides}`),
      }),
    ],
    ["gaps", t("car.gaps.title"), t("car.gapsNow", { gap: wantedText(clearances.default_mm, unit), count: rules })],
    ["rock", t("car.rock.title"), list((powertrain?.poses ?? []).map(({ id }) => id))],
    ["allow", t("car.allow.title"), list(allowed)],
    ["datums", t("car.datums.title"), list(datums.map(({ id }) => id))],
  ];
  return (
    <div className="car-list">
      {rows.map(([sheet, title, now]) => (
        <button key={sheet} type="button" className="part-row" onClick={() => openCar(sheet)}>
          <b>{title}</b>
          <small>{now}</small>
        </button>
      ))}
      <button type="button" className="part-row" onClick={openGiven}>
        <b>{t("loads.name")}</b>
        <small>{basicsText(document.loads ?? {}, unit)}</small>
      </button>
    </div>
  );
}
