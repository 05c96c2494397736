import type { SceneDocument } from "../../scene/document.ts";
import { useApp } from "../store/useApp.ts";
import { nameOf } from "../words/names.ts";
import { lengthText, wantedText } from "../words/number.ts";
import { type CarSheet, openCar } from "./carStore.ts";
import { WORDS } from "./words.ts";

/** What is no part, each with what it is now; pressing one opens its sheet. */
export function CarList({ document }: { document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const { travel, clearances, members, powertrain, datums = [], sides } = document;
  const rules = clearances.rules?.length ?? 0;
  const list = (names: readonly string[]) => names.join(", ") || WORDS.nothing;
  const rows: readonly (readonly [CarSheet, string, string])[] = [
    ["members", WORDS.members, list(members.map(({ id }) => nameOf(id, document)))],
    [
      "travel",
      WORDS.travel,
      `+${lengthText(travel.bump_mm, unit)}, −${lengthText(travel.droop_mm, unit)}, ${sides === "both" ? "both sides" : sides}`,
    ],
    ["gaps", WORDS.gaps, `${wantedText(clearances.default_mm, unit)}, ${rules} ${rules === 1 ? "rule" : "rules"}`],
    ["rock", WORDS.rock, list((powertrain?.poses ?? []).map(({ id }) => id))],
    ["datums", WORDS.datums, list(datums.map(({ id }) => id))],
  ];
  return (
    <div className="car-list">
      {rows.map(([sheet, title, now]) => (
        <button key={sheet} type="button" className="part-row" onClick={() => openCar(sheet)}>
          <b>{title}</b>
          <small>{now}</small>
        </button>
      ))}
    </div>
  );
}
