import { useState } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import { Picker } from "../parts/Picker.tsx";
import { PlaceField, SignedLength } from "../parts/PlaceFields.tsx";
import { useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { lengthNumber } from "../words/number.ts";
import { placingOf } from "./placing.ts";
import { changePair, pickNext } from "./scanActions.ts";
import { blankPair, type PairDraft, useScan } from "./scanStore.ts";
import { placedText, refusalSentence, residualText, stretchText } from "./words.ts";

/** Pairs of points that say where the scan is in the car. */
export function PlaceStep() {
  const draft = useScan();
  const unit = useApp((state) => state.unit);
  const { pairs, editing } = draft;
  const { counted, registration, refusal } = placingOf(draft);
  const stretch = registration && stretchText(registration.stretch);
  return (
    <>
      <p>
        <Rich text={editing === null ? t("scans.place.leadNew") : t("scans.place.leadAgain")} />
      </p>
      <ol className="scan-pairs">
        {pairs.map((pair, i) => {
          const at = counted.indexOf(pair.key);
          return (
            <PairRow
              key={pair.key}
              pair={pair}
              number={i + 1}
              residual_mm={at < 0 ? null : (registration?.residuals_mm[at] ?? null)}
              isSuspect={at >= 0 && (registration?.suspects.includes(at) ?? false)}
              canGo={pairs.length > 3}
            />
          );
        })}
      </ol>
      <button
        type="button"
        className="button"
        disabled={pairs.length >= 20}
        onClick={() => {
          const pair = blankPair();
          useScan.setState({ pairs: [...pairs, pair] });
          pickNext({ kind: "pair", key: pair.key, end: "scan" });
        }}
      >
        {t("scans.place.more")}
      </button>
      {refusal && (
        <p className="point-error" role="alert">
          {refusalSentence(refusal)}
        </p>
      )}
      {registration && (
        <p role="status" className="scan-result">
          {placedText(registration.rms_mm, Math.max(...registration.residuals_mm), unit)}
        </p>
      )}
      {stretch && <p className="scan-warning">{stretch}</p>}
    </>
  );
}

interface PairRowProps {
  readonly pair: PairDraft;
  readonly number: number;
  readonly residual_mm: number | null;
  readonly isSuspect: boolean;
  readonly canGo: boolean;
}

const PLACE = "\u0000";
const NONE = "\u0001";

function PairRow({ pair, number, residual_mm, isSuspect, canGo }: PairRowProps) {
  const unit = useApp((state) => state.unit);
  const scene = useApp((state) => state.scene);
  const picking = useScan((draft) => draft.picking);
  const [isTyped, setTyped] = useState(false);
  const { key, scan, car, point } = pair;
  const isPicking = (end: "scan" | "car") => picking?.kind === "pair" && picking.key === key && picking.end === end;
  const pick = (end: "scan" | "car") => pickNext(isPicking(end) ? null : { kind: "pair", key, end });
  const names = [...(scene?.points.keys() ?? [])];
  return (
    <li className="scan-pair" data-suspect={isSuspect}>
      <div className="scan-row">
        <b className="scan-number">{number}</b>
        <button type="button" className="button" aria-pressed={isPicking("scan")} onClick={() => pick("scan")}>
          {scan ? t("scans.onScanDone") : t("scans.place.onScan")}
        </button>
        <button type="button" className="button" aria-pressed={isPicking("car")} onClick={() => pick("car")}>
          {car ? t("scans.inCarDone") : t("scans.place.inCar")}
        </button>
        {canGo && (
          <button
            type="button"
            className="button plain"
            onClick={() => useScan.setState((draft) => ({ pairs: draft.pairs.filter((other) => other.key !== key) }))}
          >
            {t("scans.takeOut")}
          </button>
        )}
      </div>
      <Picker
        label={t("scans.place.pointInCar", { number })}
        items={[
          { value: NONE, label: t("scans.notChosen") },
          { value: PLACE, label: car && point === null ? placeText(car, unit) : t("scans.place.byCoordinates") },
          ...names.map((name) => ({ value: name, label: name })),
        ]}
        value={point ?? (car ? PLACE : NONE)}
        onPick={(picked) => {
          if (picked === NONE) changePair(key, { car: null, point: null });
          else if (picked === PLACE) {
            changePair(key, { car: car ?? [0, 0, 0], point: null });
            setTyped(true);
          } else changePair(key, { car: scene?.points.get(picked)?.at ?? null, point: picked });
        }}
      />
      <button type="button" className="button plain" aria-expanded={isTyped} onClick={() => setTyped(!isTyped)}>
        {isTyped ? t("scans.place.hideCoordinates") : t("scans.place.typeCoordinates")}
      </button>
      {isTyped && (
        <div className="scan-typed">
          <fieldset className="place-parts" aria-label={t("scans.place.pointOnScan", { number })}>
            {(["x", "y", "z"] as const).map((axis, i) => (
              <SignedLength
                key={axis}
                label={t("scans.place.scanAxis", { axis })}
                value_mm={scan?.[i] ?? 0}
                unit={unit}
                onChange={(value) => {
                  const from = scan ?? [0, 0, 0];
                  changePair(key, { scan: from.map((old, j) => (j === i ? value : old)) as unknown as Vec3 });
                }}
              />
            ))}
          </fieldset>
          {car && point === null && (
            <fieldset className="place-parts" aria-label={t("scans.place.pointInCar", { number })}>
              <PlaceField value={car} unit={unit} onChange={(at) => changePair(key, { car: at })} />
            </fieldset>
          )}
        </div>
      )}
      {residual_mm !== null && <p className="scan-residual">{residualText(residual_mm, isSuspect, unit)}</p>}
    </li>
  );
}

function placeText(at: Vec3, unit: "mm" | "in"): string {
  return at.map((value) => lengthNumber(value, unit)).join(", ");
}
