import type { PartGroup } from "../../check/model.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { partsOf } from "../../scene/parts/parts.ts";
import { Swatch } from "../marks/Swatch.tsx";
import { openNewPieces } from "../pieces/piecesStore.ts";
import { openNewScan } from "../scans/scanActions.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { heldIdOf, type ListedPart, listedParts } from "./partGroups.ts";
import { openShelf, usePartsLook } from "./partsStore.ts";
import "./parts.css";

const GROUPS: readonly PartGroup[] = ["chassis", "powertrain", "hub", "arms"];

/** Every part by what it rides on, with a search and the way to the shelf. Pressing one takes it in hand. */
export function PartsPanel({ document }: { document: SceneDocument }) {
  const search = usePartsLook((look) => look.search);
  const listed = listedParts(document, search);
  const total = partsOf(document).length;
  return (
    <div className="parts-panel" onKeyDown={stepRows}>
      <div className="parts-tools">
        <input
          className="field"
          type="search"
          aria-label={t("parts.search")}
          placeholder={t("parts.search")}
          value={search}
          onChange={(event) => usePartsLook.setState({ search: event.target.value })}
        />
        <button type="button" className="button go" onClick={openShelf}>
          {t("parts.add")}
        </button>
        <button type="button" className="button" onClick={openNewPieces}>
          {t("pieces.open")}
        </button>
        <button type="button" className="button" onClick={openNewScan}>
          {t("parts.bringInScan")}
        </button>
      </div>
      {listed.length === 0 && <p className="points-empty">{t("parts.none", { total, search })}</p>}
      {GROUPS.map((group) => {
        const title = t(`parts.groups.${group}`);
        const rows = listed.filter((row) => row.group === group);
        if (rows.length === 0) return null;
        return (
          <section key={group} className="points-group" aria-label={title}>
            <h3>
              <Swatch group={group} />
              {title} <small>{rows.length}</small>
            </h3>
            {group === "powertrain" && (
              <button
                type="button"
                className="part-row part-all"
                onClick={() => usePartsLook.setState({ powertrainOpen: true })}
              >
                <b>{t("parts.asOne")}</b>
                <small>{t(`parts.asOneState.${document.powertrain?.place ? "moved" : "asDrawn"}`)}</small>
              </button>
            )}
            {rows.map((row) => (
              <PartRow key={row.part.id} row={row} />
            ))}
          </section>
        );
      })}
    </div>
  );
}

function PartRow({ row }: { row: ListedPart }) {
  const id = heldIdOf(row.part);
  const isTried = useApp((state) => state.triedEdit?.part === row.part.id);
  return (
    <button type="button" className="part-row" onClick={() => app.getState().hold(id)}>
      <b>{row.name}</b>
      <small>{row.about}</small>
      {isTried && <em>{t("parts.notKept")}</em>}
    </button>
  );
}

/** Up and down go from row to row, from the search too. */
function stepRows(event: React.KeyboardEvent<HTMLDivElement>): void {
  const by = event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
  if (by === 0) return;
  const stops = [...event.currentTarget.querySelectorAll<HTMLElement>("input[type=search], .part-row")];
  const at = stops.indexOf(event.target as HTMLElement);
  const next = at < 0 ? undefined : stops[at + by];
  if (!next) return;
  event.preventDefault();
  next.focus();
}
