import { useMemo } from "react";
import {
  type ComparedPair,
  type ComparedWheel,
  compareCards,
  hasChanged,
  type MovedPoint,
} from "../../buildlog/compare.ts";
import type { Card } from "../../buildlog/entry.ts";
import { foldTwins } from "../../buildlog/twins.ts";
import type { PairVerdict } from "../../check/result.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import { formatLength } from "../../scene/length.ts";
import { pairName } from "../card/facts.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { moveWords } from "../points/moveWords.ts";
import { pointInfos } from "../points/pointInfo.ts";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { angleText, asShown, lengthNumber, lengthText, shownDifference } from "../words/number.ts";
import { ComparedPictures } from "./ComparedPictures.tsx";

/** Two cards side by side, the earlier one first, and what came of it. */
export function ComparedCards({ before, after }: { before: Card; after: Card }) {
  const unit = useApp((state) => state.unit);
  const comparison = useMemo(() => compareCards(before, after), [before, after]);
  return (
    <>
      <ComparedPictures before={before} after={after} />
      <section className="log-card compared-tables" aria-label={t("log.compared.label")}>
        <PairTable pairs={comparison.pairs} before={before} after={after} unit={unit} />
        <div>
          <WheelTable wheels={comparison.wheels} unit={unit} />
          <MovedTable moved={comparison.moved} before={before} after={after} unit={unit} />
          <OtherChanges changes={comparison.otherChanges} />
        </div>
      </section>
    </>
  );
}

/** Pairs that fared the same on both sides in both cards. */
const TWINS = {
  name: (pair: ComparedPair) => `${pair.a}/${pair.b}`,
  side: (pair: ComparedPair) => pair.side,
  alike: (one: ComparedPair, other: ComparedPair) =>
    isAlike(one.before?.clearance_mm, other.before?.clearance_mm) &&
    isAlike(one.after?.clearance_mm, other.after?.clearance_mm),
};

function isAlike(one: number | null | undefined, other: number | null | undefined): boolean {
  if (one == null || other == null) return one == null && other == null;
  return Math.abs(one - other) < 0.05;
}

interface PairTableProps {
  readonly pairs: readonly ComparedPair[];
  readonly before: Card;
  readonly after: Card;
  readonly unit: Unit;
}

function PairTable({ pairs, before, after, unit }: PairTableProps) {
  const isOpen = (pair: PairVerdict | null) => pair?.verdict === "clash" || pair?.verdict === "tight";
  const shown = pairs.filter((pair) => isOpen(pair.before) || isOpen(pair.after) || hasChanged(pair));
  const same = pairs.length - shown.length;
  return (
    <table className="compare-table">
      <thead>
        <tr>
          <th scope="col">{t("log.compared.closest", { unit })}</th>
          <th scope="col">{t("log.compared.a", { number: before.number })}</th>
          <th scope="col">{t("log.compared.b", { number: after.number })}</th>
          <th scope="col">{t("log.compared.won")}</th>
        </tr>
      </thead>
      <tbody>
        {foldTwins(shown, TWINS).map(({ item: pair, side }) => (
          <tr key={pair.key}>
            <th scope="row">
              <Rich
                text={t("card.namedQuiet", {
                  name: pairName(pair.after ? after : before, pair),
                  side: t(`card.sides.${side}`),
                })}
              />
            </th>
            <td>
              <Clearance pair={pair.before} unit={unit} />
            </td>
            <td>
              <b>
                <Clearance pair={pair.after} unit={unit} />
              </b>
            </td>
            <td>{wonText(pair, unit)}</td>
          </tr>
        ))}
      </tbody>
      {same > 0 && <caption>{t("log.compared.same", { count: same })}</caption>}
    </table>
  );
}

function Clearance({ pair, unit }: { pair: PairVerdict | null; unit: Unit }) {
  if (!pair) return <span className="quiet">{t("log.compared.notChecked")}</span>;
  return (
    <>
      <GapMark kind={pair.verdict} size={20} />
      <span className="unseen">{t(`card.marks.${pair.verdict}`)} </span>
      {lengthNumber(pair.clearance_mm, unit, { signed: true })}
    </>
  );
}

function wonText(pair: ComparedPair, unit: Unit): string {
  if (!pair.before || !pair.after) return "";
  const won_mm = shownDifference(pair.before.clearance_mm, pair.after.clearance_mm, unit);
  const won = lengthNumber(won_mm, unit, { signed: true });
  if (Number(won) === 0) return t("log.compared.noChange");
  return `${won_mm > 0 ? "▴" : "▾"} ${won}`;
}

function WheelTable({ wheels, unit }: { wheels: readonly ComparedWheel[]; unit: Unit }) {
  const [first] = wheels;
  if (!first) return null;
  const angle = (value: number | undefined) => (value === undefined ? "" : angleText(value));
  const length = (value: number | null | undefined) => (value == null ? "" : lengthText(value, unit));
  const rows = [
    [t("log.compared.toe"), angle(first.before?.toe_deg), angle(first.after?.toe_deg)],
    [t("log.compared.camber"), angle(first.before?.camber_deg), angle(first.after?.camber_deg)],
    [t("log.compared.halfTrack"), length(first.before?.halfTrack_mm), length(first.after?.halfTrack_mm)],
    ...plunges(wheels).map(({ item: { before, after }, side }) => [
      t(`log.compared.plunge.${side}`),
      length(before?.plunge_mm),
      length(after?.plunge_mm),
    ]),
  ].filter(([, before, after]) => before || after);
  return (
    <table className="compare-table">
      <thead>
        <tr>
          <th scope="col">{t("log.compared.wheel")}</th>
          <th scope="col">A</th>
          <th scope="col">B</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, before, after]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{before}</td>
            <td>
              <b>{after}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function plunges(wheels: readonly ComparedWheel[]) {
  return foldTwins(wheels, {
    name: () => "",
    side: (wheel) => wheel.side,
    alike: (one, other) =>
      isAlike(one.before?.plunge_mm, other.before?.plunge_mm) && isAlike(one.after?.plunge_mm, other.after?.plunge_mm),
  });
}

interface MovedTableProps {
  readonly moved: readonly MovedPoint[];
  readonly before: Card;
  readonly after: Card;
  readonly unit: Unit;
}

function MovedTable({ moved, before, after, unit }: MovedTableProps) {
  if (moved.length === 0) return <p className="compare-line quiet">{t("log.compared.noneMoved")}</p>;
  const titles = new Map(
    [...pointInfos(before.document), ...pointInfos(after.document)].map((info) => [info.name, info.title]),
  );
  const shown = (at: Vec3): Vec3 => [asShown(at[0], unit), asShown(at[1], unit), asShown(at[2], unit)];
  const place = (at: Vec3 | null) =>
    at ? at.map((value) => formatLength(value, unit)).join(", ") : t("log.compared.notThere");
  return (
    <table className="compare-table">
      <thead>
        <tr>
          <th scope="col">{t("log.compared.moved", { unit })}</th>
          <th scope="col">A</th>
          <th scope="col">B</th>
        </tr>
      </thead>
      <tbody>
        {moved.map((point) => (
          <tr key={point.name}>
            <th scope="row">
              {titles.get(point.name) ?? point.name} <small>{point.name}</small>
              {point.before && point.after && (
                <small> {moveWords(shown(point.before), shown(point.after), null, unit).way}</small>
              )}
            </th>
            <td>{place(point.before)}</td>
            <td>
              <b>{place(point.after)}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const MOST_CHANGES = 8;

function OtherChanges({ changes }: { changes: readonly { readonly path: string }[] }) {
  if (changes.length === 0) return null;
  const named = changes.slice(0, MOST_CHANGES).map((change) => change.path);
  const more = changes.length - named.length;
  const paths = named.join(", ");
  const text = more > 0 ? t("log.compared.alsoMore", { paths, count: more }) : t("log.compared.also", { paths });
  return (
    <p className="compare-line">
      <Rich text={text} />
    </p>
  );
}
