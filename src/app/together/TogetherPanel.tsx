import { useMemo } from "react";
import type { Scene } from "../../scene/scene.ts";
import type { Beyond } from "../../studies/together/beyond.ts";
import type { CrossingPair } from "../../studies/together/crossing.ts";
import type { Together } from "../../studies/together/together.ts";
import { SentenceText } from "../corner/SentenceText.tsx";
import { GapMark } from "../marks/GapMark.tsx";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { StudyLine, useIsOutdated } from "../studies/StudyLine.tsx";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { engineText, nameOf, nameWithin } from "../words/names.ts";
import { angleText, lengthText, wantedText } from "../words/number.ts";
import { limitSentence } from "../words/sentences.ts";
import { travelRange, travelText } from "../words/travel.ts";
import { goTo, togetherQuestion, togetherStudy } from "./togetherStore.ts";
import "../asBuilt/asBuilt.css";
import "../corner/ledger.css";
import "../jig/jig.css";
import "../loads/loads.css";

/** Which states may happen together: parts that cross sides with one wheel up and one down, and poses beyond their travel. */
export function TogetherPanel() {
  const document = useApp((state) => state.document);
  const question = useMemo(() => document && togetherQuestion(document), [document]);
  const told = togetherStudy.use((state) => state.told);
  const isOutdated = useIsOutdated(togetherStudy, question);
  if (!document) return null;
  return (
    <div className="loads-scroll">
      <p className="tool-note">{t("together.lead")}</p>
      <StudyLine study={togetherStudy} question={question} go={t("together.go")} again={t("together.again")} />
      {told && <Told told={told.result} isOutdated={isOutdated} />}
      <p className="tool-note">{t("together.caution")}</p>
    </div>
  );
}

function Told({ told, isOutdated }: { told: Together; isOutdated: boolean }) {
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const { check, crossing, cannotHappen, bar } = told;
  const open = check.summary.clash + check.summary.tight;
  const sides = Object.keys(check.sides).length;
  return (
    <div className="built" data-stale={isOutdated}>
      <section className="built-side" aria-label={t("together.mustClear")}>
        <h3>{t("together.mustClear")}</h3>
        <p>{open === 0 ? t("together.allClear") : t("together.open", { count: open })}</p>
      </section>
      {sides === 2 && (
        <section className="built-side" aria-label={t("together.crossing")}>
          <h3>{t("together.crossing")}</h3>
          {crossing.length === 0 && <p className="gear-clear">{t("together.noCrossing")}</p>}
          <ul className="built-gaps">
            {crossing.map((pair) => (
              <li key={`${pair.left} ${pair.right}`}>
                <CrossingRow pair={pair} scene={scene} unit={unit} />
              </li>
            ))}
          </ul>
          {bar && (
            <p>
              {t("together.bar", {
                angle: angleText(bar.wound_deg),
                left: travelText(bar.at.left_mm, unit),
                right: travelText(bar.at.right_mm, unit),
              })}
            </p>
          )}
        </section>
      )}
      <section className="built-side" aria-label={t("together.cannot")}>
        <h3>{t("together.cannot")}</h3>
        {cannotHappen.length === 0 && <p>{t("together.nothingCannot")}</p>}
        <ul className="built-gaps">
          {cannotHappen.map((each) => (
            <li key={`${each.side} ${each.what} ${each.at.pose}`}>
              <BeyondRow beyond={each} scene={scene} unit={unit} />
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}

interface RowProps {
  readonly scene: Scene | null;
  readonly unit: Unit;
}

function CrossingRow({ pair, scene, unit }: RowProps & { pair: CrossingPair }) {
  const { left, right, clearance_mm, required_mm, verdict, at } = pair;
  return (
    <button type="button" className="gap-spread" onClick={() => goTo(at)}>
      <GapMark kind={verdict} size={22} />
      <span>
        <Rich
          text={t(`together.pair.${clearance_mm < 0 ? "deep" : "off"}`, {
            left: nameOf(left, scene),
            right: nameWithin(right, scene),
            amount: lengthText(Math.abs(clearance_mm), unit),
          })}
        />
        <small>
          {t("together.at", {
            left: travelText(at.left_mm, unit),
            right: travelText(at.right_mm, unit),
            engine: engineText(at.pose),
            wanted: wantedText(required_mm, unit),
          })}
        </small>
      </span>
    </button>
  );
}

function BeyondRow({ beyond, scene, unit }: RowProps & { beyond: Beyond }) {
  const { what, limit, value, wanted, verdict, at, within_mm, mustClear } = beyond;
  const [a = what, b = what] = what.split("/");
  const there = {
    where: travelText(at.travel_mm, unit),
    engine: engineText(at.pose, at.share),
    range: travelRange(within_mm[0], within_mm[1], unit),
  };
  return (
    <button
      type="button"
      className="gap-spread"
      onClick={() => goTo({ left_mm: at.travel_mm, right_mm: at.travel_mm, pose: at.pose, share: at.share })}
    >
      <GapMark kind={limit ? "limit" : verdict} size={22} />
      <span>
        {limit ? (
          <SentenceText sentence={limitSentence(limit, scene, unit)} kind="limit" />
        ) : (
          <Rich
            text={t(`together.would.${value < 0 ? "deep" : "off"}`, {
              a: nameOf(a, scene),
              b: nameWithin(b, scene),
              amount: lengthText(Math.abs(value), unit),
              ...there,
            })}
          />
        )}
        <small>
          {mustClear
            ? t("together.instead", {
                amount: lengthText(mustClear.clearance_mm, unit),
                wanted: wantedText(wanted, unit),
                range: there.range,
              })
            : t("together.only", { range: there.range })}
        </small>
      </span>
    </button>
  );
}
