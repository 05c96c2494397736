import { useMemo } from "react";
import type { PairVerdict } from "../../check/result.ts";
import { resolveScene } from "../../scene/resolve.ts";
import { pairName } from "../card/facts.ts";
import { GapMark } from "../marks/GapMark.tsx";
import type { TriedMove, Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { nameOf } from "../words/names.ts";
import { angleText, lengthNumber } from "../words/number.ts";
import { lengthEffects, pairEffects, type WheelEffect, wheelEffects } from "./effects.ts";

const MOST_PAIRS = 5;

/** What a tried move would do: gaps, wheel and lengths, now and then. */
export function MoveEffects({ tried }: { tried: TriedMove }) {
  const before = useApp((state) => state.resultBefore);
  const result = useApp((state) => state.result);
  const stale = useApp((state) => state.stale);
  const unit = useApp((state) => state.unit);
  const ready = before !== null && result !== null;
  return (
    <div className="effects" data-stale={stale || !ready}>
      <Progress waiting={stale || !ready} />
      {ready && <Gaps before={before} after={result} unit={unit} />}
      {ready && (
        <EffectTable head="Wheel, change through travel" rows={wheelEffects(before, result).map(wheelRow(unit))} />
      )}
      <Lengths tried={tried} unit={unit} />
    </div>
  );
}

function Progress({ waiting }: { waiting: boolean }) {
  const checking = useApp((state) => state.checking);
  const stopped = useApp((state) => state.checkStopped);
  const trouble = useApp((state) => state.workTrouble);
  if (trouble) return <p className="point-error">The check gave no result: {trouble}</p>;
  if (stopped)
    return <p className="fine quiet">The check was stopped; what stands below is from before your change.</p>;
  if (!waiting) return null;
  const count = checking ? `${checking.pairsDone} of ${checking.pairsTotal} pairs checked` : "checking";
  return <p className="fine quiet">{count}; what stands below is from before your change</p>;
}

type Result = Parameters<typeof pairEffects>[0];

function Gaps({ before, after, unit }: { before: Result; after: Result; unit: Unit }) {
  const document = useApp((state) => state.document);
  const rows = pairEffects(before, after, MOST_PAIRS);
  const twoSided = Object.keys(after.sides).length > 1;
  if (!document) return null;
  if (rows.length === 0) return <p className="fine quiet">No gap changes by as much as a hundredth.</p>;
  return (
    <EffectTable
      head={`Worst over travel, ${unit}`}
      rows={rows.map(({ key, sides, before: was, after: now }) => ({
        key,
        name: `${pairName({ document }, now)}${twoSided ? ` (${sides})` : ""}`,
        now: <Gap pair={was} unit={unit} />,
        wouldBe: <Gap pair={now} unit={unit} />,
      }))}
    />
  );
}

function Gap({ pair, unit }: { pair: PairVerdict; unit: Unit }) {
  return (
    <>
      <GapMark kind={pair.verdict} size={19} />
      <span className="unseen">{pair.verdict} </span>
      {lengthNumber(pair.clearance_mm, unit, { signed: true })}
    </>
  );
}

const wheelRow =
  (unit: Unit) =>
  ({ name, kind, before, after }: WheelEffect): EffectRow => {
    const text = (value: number | null) =>
      value === null ? "none" : kind === "angle" ? angleText(value) : lengthNumber(value, unit);
    return { key: name, name, now: text(before), wouldBe: text(after) };
  };

function Lengths({ tried, unit }: { tried: TriedMove; unit: Unit }) {
  const document = useApp((state) => state.document);
  const scene = useApp((state) => state.scene);
  const kept = useMemo(() => (document ? resolveScene(document) : null), [document]);
  if (tried.meaning === "bolt") return <p className="fine quiet">Every part keeps its length.</p>;
  if (!kept || !scene) return null;
  const rows = lengthEffects(kept, scene, (id) => nameOf(id, scene)).map(({ part, before_mm, after_mm }) => ({
    key: part,
    name: part,
    now: lengthNumber(before_mm, unit),
    wouldBe: lengthNumber(after_mm, unit),
  }));
  return rows.length > 0 && <EffectTable head={`Lengths, eye to eye, ${unit}`} rows={rows} />;
}

interface EffectRow {
  readonly key: string;
  readonly name: string;
  readonly now: React.ReactNode;
  readonly wouldBe: React.ReactNode;
}

function EffectTable({ head, rows }: { head: string; rows: readonly EffectRow[] }) {
  return (
    <table className="effect-table">
      <thead>
        <tr>
          <th scope="col">{head}</th>
          <th scope="col">now</th>
          <th scope="col">would be</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.key}>
            <th scope="row">{row.name}</th>
            <td>
              <span>{row.now}</span>
            </td>
            <td>
              <span aria-hidden="true" className="arrow">
                →
              </span>
              <b>{row.wouldBe}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
