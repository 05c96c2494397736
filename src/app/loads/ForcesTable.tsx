import { Fragment, useEffect, useMemo, useRef } from "react";
import { boltAxis, boltShare } from "../../loads/boltAxis.ts";
import type { CornerLoads } from "../../loads/forces.ts";
import { length, type Vec3 } from "../../maths/vec3.ts";
import type { Loads } from "../../scene/loadRecords.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { Unit } from "../store/state.ts";
import { useApp, useLater } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { angleText } from "../words/number.ts";
import { travelText } from "../words/travel.ts";
import { type ForceRow, forceRows, type RowKind, type WorstOfRow } from "./forceRows.ts";
import { goThere } from "./goThere.ts";
import { pick, useLoadsLook, useLoadsTold } from "./loadsStore.ts";
import { bodyText, caseText, partText } from "./partNames.ts";
import { forceText, momentText, tinyText } from "./quantity.ts";

interface ForcesTableProps {
  readonly scene: Scene;
  readonly loads: Loads;
  readonly side: Side;
  readonly here: CornerLoads;
}

const ASSUMPTIONS = ["static", "bushes", "shaft", "bar"] as const;

const whole = <T,>(told: T): T => told;

/** Every force of one side: as it is in the shown state, and the worst of all cases and travels. */
export function ForcesTable({ scene, loads, side, here }: ForcesTableProps) {
  const { report, stale, error } = useLater(useLoadsTold, whole);
  const unit = useApp((state) => state.unit);
  const isBehind = useApp((state) => state.scene !== scene);
  const told = report?.sides.find((each) => each.side === side);
  const rows = useMemo(() => forceRows(here, told?.worst ?? [], scene), [here, told, scene]);
  return (
    <>
      {!report && !error && <p role="status">{t("loads.working")}</p>}
      {report && stale && <p className="stale-line">{t("loads.beforeChange")}</p>}
      {told && told.bindsAt_mm !== null && (
        <p className="tool-note">{t("loads.ask.binds", { where: travelText(told.bindsAt_mm, unit) })}</p>
      )}
      {told && told.withoutLever_mm.length > 0 && (
        <p className="tool-note">
          {t("loads.ask.withoutLever", { where: told.withoutLever_mm.map((mm) => travelText(mm, unit)).join(", ") })}
        </p>
      )}
      <table className="load-table" data-stale={stale} data-behind={isBehind}>
        <caption className="unseen">{t("loads.table.name")}</caption>
        <thead>
          <tr>
            <th scope="col">{t("loads.table.part")}</th>
            <th scope="col">{t("loads.table.here")}</th>
            <th scope="col">{t("loads.table.worst")}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            <Fragment key={row.key}>
              {row.group !== rows[i - 1]?.group && (
                <tr className="load-group">
                  <th scope="colgroup" colSpan={3}>
                    {t(`loads.table.groups.${row.group}`)}
                  </th>
                </tr>
              )}
              <Row row={row} scene={scene} loads={loads} side={side} here={here} />
            </Fragment>
          ))}
        </tbody>
      </table>
      <p className="tool-note">{t("loads.arrows.note")}</p>
      <p className="tool-note">
        {t("loads.residual", {
          here: `${tinyText(here.residual_N)} N`,
          hereMoment: `${tinyText(here.residual_Nmm)} N·mm`,
          worst: report ? `${tinyText(report.residual_N)} N` : "–",
          worstMoment: report ? `${tinyText(report.residual_Nmm)} N·mm` : "–",
        })}
      </p>
      <details className="loads-how">
        <summary>{t("loads.how")}</summary>
        {ASSUMPTIONS.map((each) => (
          <p key={each} className="tool-note">
            {t(`loads.assumptions.${each}`)}
          </p>
        ))}
      </details>
    </>
  );
}

interface RowProps extends ForcesTableProps {
  readonly row: ForceRow;
}

function Row({ row, ...rest }: RowProps) {
  const { scene, loads } = rest;
  const unit = useApp((state) => state.unit);
  const isOpen = useLoadsLook((state) => state.openRow === row.key);
  const place = useRef<HTMLTableRowElement>(null);
  useEffect(() => {
    if (isOpen) place.current?.scrollIntoView({ block: "nearest" });
  }, [isOpen]);
  const name = t(`loads.ofKind.${row.kind}`, { part: partText(row.part, scene) });
  const worst = worstOf(row.worst);
  return (
    <>
      <tr data-picked={isOpen} ref={place}>
        <th scope="row">
          <button type="button" aria-expanded={isOpen} onClick={() => pick(row.key, row.arrows)}>
            {name}
          </button>
        </th>
        <td className="tabular">
          {row.here === null ? t("loads.table.nothing") : valueText(row.kind, row.here, unit)}
        </td>
        <td className="tabular">
          {worst && (
            <>
              {worstText(worst, unit)}
              <small>{placeText(worst, loads, unit)}</small>
            </>
          )}
        </td>
      </tr>
      {isOpen && (
        <tr className="load-details">
          <td colSpan={3}>
            <Details row={row} {...rest} />
          </td>
        </tr>
      )}
    </>
  );
}

function Details({ row, scene, loads, side, here }: RowProps) {
  const unit = useApp((state) => state.unit);
  const { joint, member } = row;
  const bolt = joint && loads.bolts.find((each) => each.joint === joint.id);
  const axis = joint && boltAxis(scene, joint.id, bolt?.axis ?? null);
  return (
    <>
      {row.force_N && <p>{t("loads.details.ground", waysOf(row.force_N, side, unit))}</p>}
      {joint && (
        <p>
          {t("loads.details.acts", {
            first: bodyText(joint.between[0], scene),
            second: bodyText(joint.between[1], scene),
            ...waysOf(joint.force_N, side, unit),
          })}
        </p>
      )}
      {joint && axis && <p>{t("loads.details.bolt", boltTexts(boltShare(joint.force_N, axis, side), unit))}</p>}
      {joint && !axis && bolt && <p>{t("loads.details.noAxis")}</p>}
      {joint && length(joint.moment_Nmm) > 1 && (
        <p>{t("loads.details.moment", { value: momentText(length(joint.moment_Nmm), unit) })}</p>
      )}
      {row.kind === "axial" && member && member.thrust_N !== null && (
        <p>{t("loads.details.thrust", { value: forceText(Math.abs(member.thrust_N), unit) })}</p>
      )}
      {row.kind === "torque" && here.shaft && (
        <p>
          {t("loads.details.angles", {
            inner: angleText(here.shaft.inner_deg, { digits: 1 }),
            outer: angleText(here.shaft.outer_deg, { digits: 1 }),
          })}
        </p>
      )}
      {row.worst.map((worst) => (
        <p key={worst.kind} className="load-go">
          <span>
            <Rich
              text={t("loads.details.worst", { value: worstText(worst, unit), at: placeText(worst, loads, unit) })}
            />
          </span>
          <button type="button" className="button plain" onClick={() => goThere(worst.at)}>
            {t("loads.details.go")}
          </button>
        </p>
      ))}
    </>
  );
}

/** The greatest of them. */
function worstOf(all: readonly WorstOfRow[]): WorstOfRow | undefined {
  return [...all].sort((a, b) => b.value - a.value)[0];
}

function worstText({ kind, value }: WorstOfRow, unit: Unit): string {
  if (kind === "tension") return t("loads.pull", { value: forceText(value, unit) });
  if (kind === "compression") return t("loads.push", { value: forceText(value, unit) });
  return kind === "force" ? forceText(value, unit) : momentText(value, unit);
}

function valueText(kind: RowKind, value: number, unit: Unit): string {
  if (kind === "axial") return t(value < 0 ? "loads.push" : "loads.pull", { value: forceText(Math.abs(value), unit) });
  return kind === "force" ? forceText(value, unit) : momentText(value, unit);
}

function placeText({ at }: WorstOfRow, loads: Loads, unit: Unit): string {
  return t("loads.table.at", {
    case: caseText(at.case, loads.cases === null),
    // a travel stays in one line
    where: travelText(at.travel_mm, unit).replace(" ", "\u00a0"),
  });
}

function waysOf([x, y, z]: Vec3, side: Side, unit: Unit) {
  return {
    forward: forceText(x, unit, true),
    out: forceText(side === "left" ? y : -y, unit, true),
    up: forceText(z, unit, true),
  };
}

function boltTexts({ across_N, along_N }: { across_N: number; along_N: number }, unit: Unit) {
  return { across: forceText(across_N, unit), along: forceText(along_N, unit) };
}
