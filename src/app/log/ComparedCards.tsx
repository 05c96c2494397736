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
import { angleText, asShown, lengthNumber, lengthText, shownDifference } from "../words/number.ts";
import { CardHead, CardPictureAndNote } from "./CardView.tsx";

/** Two cards side by side, the earlier one first, and what came of it. */
export function ComparedCards({ before, after }: { before: Card; after: Card }) {
  const unit = useApp((state) => state.unit);
  const comparison = useMemo(() => compareCards(before, after), [before, after]);
  return (
    <>
      <div className="compared-pictures">
        {([before, after] as const).map((card, index) => (
          <article key={card.id} className="log-card">
            <CardHead card={card} letter={index === 0 ? "A" : "B"} />
            <CardPictureAndNote card={card} />
          </article>
        ))}
      </div>
      <section className="log-card compared-tables" aria-label="Room won or lost">
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
          <th scope="col">Closest over all travel, {unit}</th>
          <th scope="col">A, card {before.number}</th>
          <th scope="col">B, card {after.number}</th>
          <th scope="col">room won or lost</th>
        </tr>
      </thead>
      <tbody>
        {foldTwins(shown, TWINS).map(({ item: pair, side }) => (
          <tr key={pair.key}>
            <th scope="row">
              {pairName(pair.after ? after : before, pair)} <span className="quiet">({side})</span>
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
      {same > 0 && <caption>{same} clear pairs are as they were.</caption>}
    </table>
  );
}

function Clearance({ pair, unit }: { pair: PairVerdict | null; unit: Unit }) {
  if (!pair) return <span className="quiet">not checked</span>;
  return (
    <>
      <GapMark kind={pair.verdict} size={20} />
      <span className="unseen">{pair.verdict} </span>
      {lengthNumber(pair.clearance_mm, unit, { signed: true })}
    </>
  );
}

function wonText(pair: ComparedPair, unit: Unit): string {
  if (!pair.before || !pair.after) return "";
  const won_mm = shownDifference(pair.before.clearance_mm, pair.after.clearance_mm, unit);
  const won = lengthNumber(won_mm, unit, { signed: true });
  if (Number(won) === 0) return "same";
  return `${won_mm > 0 ? "▴" : "▾"} ${won}`;
}

function WheelTable({ wheels, unit }: { wheels: readonly ComparedWheel[]; unit: Unit }) {
  const [first] = wheels;
  if (!first) return null;
  const angle = (value: number | undefined) => (value === undefined ? "" : angleText(value));
  const length = (value: number | null | undefined) => (value == null ? "" : lengthText(value, unit));
  const rows = [
    ["Toe", angle(first.before?.toe_deg), angle(first.after?.toe_deg)],
    ["Camber", angle(first.before?.camber_deg), angle(first.after?.camber_deg)],
    ["Half track", length(first.before?.halfTrack_mm), length(first.after?.halfTrack_mm)],
    ...plunges(wheels).map(({ item: { before, after }, side }) => [
      side === "both" ? "Plunge" : `Plunge, ${side}`,
      length(before?.plunge_mm),
      length(after?.plunge_mm),
    ]),
  ].filter(([, before, after]) => before || after);
  return (
    <table className="compare-table">
      <thead>
        <tr>
          <th scope="col">Wheel, change through travel</th>
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
  if (moved.length === 0) return <p className="compare-line quiet">No hard point moved.</p>;
  const titles = new Map(
    [...pointInfos(before.document), ...pointInfos(after.document)].map((info) => [info.name, info.title]),
  );
  const shown = (at: Vec3): Vec3 => [asShown(at[0], unit), asShown(at[1], unit), asShown(at[2], unit)];
  const place = (at: Vec3 | null) => (at ? at.map((value) => formatLength(value, unit)).join(", ") : "not there");
  return (
    <table className="compare-table">
      <thead>
        <tr>
          <th scope="col">Moved, {unit}</th>
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
  return (
    <p className="compare-line">
      <span className="quiet">Also changed in the scene: </span>
      {named.join(", ")}
      {more > 0 && ` and ${more} more`}
    </p>
  );
}
