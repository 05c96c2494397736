import { useState } from "react";
import { formatLength, type LengthReferences, parseLength } from "../../scene/length.ts";
import type { Datum } from "../../scene/scene.ts";
import type { Unit } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import type { PointInfo } from "./pointInfo.ts";
import { pointSums } from "./pointSums.ts";
import { useLengthText } from "./useLengthText.ts";
import { DIRECTIONS, type Direction, holdPointOf, keepTried, readPlace, tryCoordinate } from "./usePointMove.ts";
import { type PointDetails, withDetails } from "./withDetails.ts";

interface PointTableRowProps {
  readonly info: PointInfo;
  readonly datum: Datum | null;
  readonly unit: Unit;
}

export function PointTableRow({ info, datum, unit }: PointTableRowProps) {
  const document = useApp((state) => state.document);
  const held = useApp((state) => state.heldPoint === info.name);
  const tried = useApp((state) => state.tried);
  const mine = tried?.point === info.name ? tried : null;
  const place = readPlace(mine?.to ?? info.place, datum);
  return (
    <tr data-held={held} data-tried={mine !== null}>
      <th scope="row">
        <button type="button" className="point-table-name" onClick={() => holdPointOf(info)}>
          {info.name}
        </button>
        {mine && <em>{t(`points.${mine.meaning === "bolt" ? "boltedNotKept" : "notKept"}`)}</em>}
      </th>
      {DIRECTIONS.map((direction) => (
        <td key={direction}>
          <CoordinateCell
            info={info}
            direction={direction}
            value_mm={place[direction]}
            unit={unit}
            references={document ? pointSums(document, datum, direction) : undefined}
            disabled={tried !== null && mine === null}
          />
        </td>
      ))}
      <td>
        <ToleranceCell info={info} unit={unit} />
      </td>
      <td>
        <HowCell info={info} />
      </td>
    </tr>
  );
}

interface CoordinateCellProps {
  readonly info: PointInfo;
  readonly direction: Direction;
  readonly value_mm: number;
  readonly unit: Unit;
  readonly references: LengthReferences | undefined;
  readonly disabled: boolean;
}

function CoordinateCell({ info, direction, value_mm, unit, references, disabled }: CoordinateCellProps) {
  const change = (next_mm: number) => tryCoordinate(info, direction, next_mm);
  const field = useLengthText(value_mm, unit, change, { references });
  const type = (text: string) => {
    if (app.getState().heldPoint !== info.name) holdPointOf(info);
    field.type(text);
  };
  return (
    <input
      className="cell figure"
      data-column={direction}
      aria-label={t(`points.table.cells.${direction}`, { point: info.name })}
      aria-invalid={field.trouble !== null}
      title={field.trouble ?? undefined}
      value={field.text}
      disabled={disabled}
      autoComplete="off"
      spellCheck={false}
      onChange={(event) => type(event.target.value)}
      onBlur={field.leave}
      onKeyDown={(event) => {
        if (event.key === "Enter" && field.trouble === null) {
          keepTried(info);
          field.clear();
        }
        if (event.key === "Escape") {
          field.clear();
          app.getState().putBack();
        }
      }}
    />
  );
}

/** What is no tolerance stays in the field for mending; an empty one means: not known. */
function ToleranceCell({ info, unit }: { info: PointInfo; unit: Unit }) {
  const [typed, setTyped] = useState<string | null>(null);
  const shown = info.tolerance_mm === null ? "" : formatLength(info.tolerance_mm, unit);
  const text = typed ?? shown;
  const parsed = text.trim() === "" ? null : parseLength(text, unit);
  const bad = parsed !== null && (!parsed.ok || parsed.mm < 0 || parsed.mm > 1000);
  const keep = () => {
    if (typed === null || bad) return;
    setTyped(null);
    keepDetails(info, "tolerance", { tolerance_mm: parsed?.ok ? parsed.mm : null, how: info.how });
  };
  return (
    <input
      className="cell figure"
      data-column="tolerance"
      aria-label={t("points.table.cells.tolerance", { point: info.name })}
      aria-invalid={bad}
      title={bad ? t("points.table.noTolerance") : undefined}
      value={text}
      autoComplete="off"
      onChange={(event) => setTyped(event.target.value)}
      onBlur={keep}
      onKeyDown={keepOrForget(keep, () => setTyped(null))}
    />
  );
}

function HowCell({ info }: { info: PointInfo }) {
  const [typed, setTyped] = useState<string | null>(null);
  const keep = () => {
    if (typed === null) return;
    setTyped(null);
    keepDetails(info, "how", { tolerance_mm: info.tolerance_mm, how: typed });
  };
  return (
    <input
      className="cell"
      data-column="how"
      aria-label={t("points.table.cells.how", { point: info.name })}
      value={typed ?? info.how ?? ""}
      maxLength={500}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={keep}
      onKeyDown={keepOrForget(keep, () => setTyped(null))}
    />
  );
}

function keepOrForget(keep: () => void, forget: () => void) {
  return (event: React.KeyboardEvent): void => {
    if (event.key === "Enter") keep();
    if (event.key === "Escape") forget();
  };
}

/** A point's details are no move: they are kept at once, beside a move that may be tried, which stays tried. */
function keepDetails(info: PointInfo, what: "tolerance" | "how", details: PointDetails): void {
  if (details.tolerance_mm === info.tolerance_mm && (details.how?.trim() || null) === info.how) return;
  const { document, tried, edit, tryMove } = app.getState();
  if (!document) return;
  edit(t(`points.steps.${what}`, { point: info.name }), withDetails(document, info.name, details));
  if (tried) tryMove(tried);
}
