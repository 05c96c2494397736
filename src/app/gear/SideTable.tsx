import type { ReactNode } from "react";
import type { StateAt } from "../../check/result.ts";
import type { Side } from "../../scene/scene.ts";
import { showState } from "../corner/showState.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { engineText } from "../words/names.ts";
import { travelText } from "../words/travel.ts";

export interface SideRow {
  readonly name: string;
  /** What the name means, where it alone leaves a doubt. */
  readonly note?: string;
  cell(side: Side): ReactNode;
}

interface SideTableProps {
  readonly name: string;
  readonly sides: readonly Side[];
  readonly rows: readonly SideRow[];
  readonly stale?: boolean;
}

/** Rows of readings, a column for each side. */
export function SideTable({ name, sides, rows, stale = false }: SideTableProps) {
  return (
    <table className="gear-table" data-stale={stale}>
      <caption className="unseen">{name}</caption>
      <thead>
        <tr>
          <td />
          {sides.map((side) => (
            <th key={side} scope="col">
              {t(`gear.sides.${side}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.name}>
            <th scope="row">
              {row.name}
              {row.note && <small>{row.note}</small>}
            </th>
            {sides.map((side) => (
              <td key={side} className="tabular">
                {row.cell(side)}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A value with the state that brings it; pressing it goes there. */
export function GoThere({ side, at, value }: { side: Side; at: StateAt; value: string }) {
  const unit = useApp((state) => state.unit);
  const hasPoses = useApp((state) => (state.scene?.powertrain.poses.length ?? 0) > 1);
  return (
    <button type="button" className="gear-go" onClick={() => showState(side, at.travel_mm, at.pose, at.share)}>
      <b>{value}</b>
      <small>{travelText(at.travel_mm, unit)}</small>
      {hasPoses && <small>{engineText(at.pose, at.share)}</small>}
    </button>
  );
}

export function NotTold() {
  return <span className="quiet">{t("gear.notTold")}</span>;
}

/** What is left to a limit, or how far it is passed. */
export function Spare({ spare, text }: { spare: number; text: string }) {
  return spare < 0 ? <b className="gear-past">{t("gear.past", { amount: text })}</b> : text;
}
