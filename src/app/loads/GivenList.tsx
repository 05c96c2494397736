import { usualCases } from "../../loads/cases.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { LoadsDocument } from "../../scene/loadsEdits.ts";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { numberText } from "../words/number.ts";
import { LISTS, type ListName, openForm } from "./formsStore.ts";
import { partText } from "./partNames.ts";
import { massText } from "./quantity.ts";
import "../parts/parts.css";

/** What the loads stand on, each with what it is now; pressing one opens its form. */
export function GivenList({ document }: { document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const loads = document.loads ?? {};
  return (
    <>
      <p className="tool-note">{t("loads.given.lead")}</p>
      <div className="given-list">
        <button type="button" className="part-row" onClick={() => openForm({ what: "basics" })}>
          <b>{t("loads.given.basics")}</b>
          <small>{basicsText(loads, unit)}</small>
        </button>
        {LISTS.map((list) => (
          <button key={list} type="button" className="part-row" onClick={() => openForm({ what: list })}>
            <b>{t(`loads.lists.${list}`)}</b>
            <small>{listNow(list, loads, document)}</small>
          </button>
        ))}
      </div>
    </>
  );
}

/** Mass, brakes and wanted factor in a line. */
export function basicsText({ cornerMass_kg, right, brakes, target }: LoadsDocument, unit: Unit): string {
  const mass =
    cornerMass_kg === undefined && !right
      ? t("loads.given.noMass")
      : t("loads.given.mass", {
          left: cornerMass_kg === undefined ? "–" : massText(cornerMass_kg, unit),
          right: massText(right?.cornerMass_kg ?? cornerMass_kg!, unit),
        });
  return listText(
    [
      mass,
      t(`loads.given.brakes.${brakes ?? "outboard"}`),
      target === undefined
        ? t("loads.given.noTarget")
        : t("loads.given.target", { target: numberText(target, { digits: Number.isInteger(target) ? 0 : 1 }) }),
    ],
    "unit",
  );
}

function listNow(list: ListName, loads: LoadsDocument, document: SceneDocument): string {
  // the names hold commas of their own
  const names = namesIn(list, loads, document);
  if (list === "cases" && !loads.cases) {
    const count = usualCases(document.driveshaft !== undefined).length;
    return t("loads.given.usualCases", { count });
  }
  return names.length === 0 ? t("loads.given.none") : names.join("; ");
}

function namesIn(list: ListName, loads: LoadsDocument, document: SceneDocument): readonly string[] {
  if (list === "cases" || list === "materials") return (loads[list] ?? []).map(({ id }) => id);
  if (list === "tubes") return [...new Set((loads.tubes ?? []).map(({ member }) => nameOf(member, document)))];
  return (loads[list] ?? []).map(({ joint }) => partText(joint, document));
}
