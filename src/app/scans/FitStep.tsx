import { useState } from "react";
import { Picker } from "../parts/Picker.tsx";
import { useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { placingOf } from "./placing.ts";
import { addMatch, changeMatch, pickNext } from "./scanActions.ts";
import { type MatchDraft, useScan } from "./scanStore.ts";
import { lineBetween, namedTargets } from "./targets.ts";
import { fitText, heldText, pairsAfterText, patchText } from "./words.ts";

/** Flats and rounds of the scan that must lie in flats and axes of the car: makes the place finer than picked points can. */
export function FitStep() {
  const draft = useScan();
  const { matches } = draft;
  const { refinement, matched } = placingOf(draft);
  return (
    <>
      <p>
        <Rich text={t("scans.fit.lead")} />
      </p>
      <ol className="scan-pairs">
        {matches.map((match, i) => {
          const at = matched.indexOf(match.key);
          return <MatchRow key={match.key} match={match} number={i + 1} fit={refinement?.fits[at] ?? null} />;
        })}
      </ol>
      <div className="scan-row">
        <button type="button" className="button" onClick={() => addMatch("plane")}>
          {t("scans.fit.addPlane")}
        </button>
        <button type="button" className="button" onClick={() => addMatch("cylinder")}>
          {t("scans.fit.addCylinder")}
        </button>
      </div>
      {refinement && (
        <p role="status" className="scan-result">
          {heldText(refinement.held)}
        </p>
      )}
      {refinement && <PairsAfter />}
    </>
  );
}

/** How far the picked points are off after the fit. */
function PairsAfter() {
  const draft = useScan();
  const unit = useApp((state) => state.unit);
  const { pairsAfter_mm } = placingOf(draft);
  if (pairsAfter_mm === null) return null;
  return <p className="quiet">{pairsAfterText(pairsAfter_mm, unit)}</p>;
}

interface MatchRowProps {
  readonly match: MatchDraft;
  readonly number: number;
  readonly fit: { readonly rms_mm: number; readonly worst_mm: number } | null;
}

const NONE = "\u0000";
const PICKED = "\u0001";

function MatchRow({ match, number, fit }: MatchRowProps) {
  const unit = useApp((state) => state.unit);
  const scene = useApp((state) => state.scene);
  const picking = useScan((draft) => draft.picking);
  const { key, kind, patch, target } = match;
  const named = namedTargets(scene, kind);
  const isPicking = (end: "scan" | "car") => picking?.kind === "match" && picking.key === key && picking.end === end;
  const pick = (end: "scan" | "car") => pickNext(isPicking(end) ? null : { kind: "match", key, end });
  return (
    <li className="scan-pair">
      <div className="scan-row">
        <b className="scan-number">{number}</b>
        <button type="button" className="button" aria-pressed={isPicking("scan")} onClick={() => pick("scan")}>
          {patch ? t("scans.onScanDone") : kind === "plane" ? t("scans.fit.tapPlane") : t("scans.fit.tapCylinder")}
        </button>
        <button type="button" className="button" aria-pressed={isPicking("car")} onClick={() => pick("car")}>
          {target ? t("scans.inCarDone") : t("scans.fit.inCar")}
        </button>
        <button
          type="button"
          className="button plain"
          onClick={() => useScan.setState((draft) => ({ matches: draft.matches.filter((other) => other.key !== key) }))}
        >
          {t("scans.takeOut")}
        </button>
      </div>
      {kind === "plane" ? (
        <Picker
          label={t("scans.fit.liesIn")}
          items={[
            { value: NONE, label: t("scans.notChosen") },
            ...(target && !named.some(({ name }) => name === target.name)
              ? [{ value: PICKED, label: t("scans.fit.flatOf", { name: target.name }) }]
              : []),
            ...named.map(({ name }) => ({ value: name, label: name })),
          ]}
          value={!target ? NONE : named.some(({ name }) => name === target.name) ? target.name : PICKED}
          onPick={(picked) => {
            if (picked === NONE) changeMatch(key, { target: null });
            const found = named.find(({ name }) => name === picked);
            if (found) changeMatch(key, { target: found });
          }}
        />
      ) : (
        <LinePickers matchKey={key} />
      )}
      <p className="scan-residual">
        {patch && patchText(patch, unit)} {kind === "cylinder" && target && t("scans.fit.axis", { name: target.name })}{" "}
        {fit && <b>{fitText(fit, unit)}</b>}
      </p>
    </li>
  );
}

/** The line through two hard points, for those who cannot tap on a part. */
function LinePickers({ matchKey }: { matchKey: number }) {
  const scene = useApp((state) => state.scene);
  const [ends, setEnds] = useState<readonly [string, string]>([NONE, NONE]);
  const names = [...(scene?.points.keys() ?? [])];
  const items = [{ value: NONE, label: t("scans.notChosen") }, ...names.map((name) => ({ value: name, label: name }))];
  const choose = (next: readonly [string, string]) => {
    setEnds(next);
    const line = scene && lineBetween(scene, next[0], next[1]);
    if (line) changeMatch(matchKey, { target: line });
  };
  return (
    <div className="scan-row">
      <Picker
        label={t("scans.fit.axisFrom")}
        items={items}
        value={ends[0]}
        onPick={(name) => choose([name, ends[1]])}
      />
      <Picker label={t("scans.fit.axisTo")} items={items} value={ends[1]} onPick={(name) => choose([ends[0], name])} />
    </div>
  );
}
