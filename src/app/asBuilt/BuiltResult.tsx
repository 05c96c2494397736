import type { CheckResult, PairVerdict } from "../../check/result.ts";
import { length, type Vec3 } from "../../maths/vec3.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { AsBuilt, BuiltSide } from "../../studies/asBuilt/asBuilt.ts";
import { SentenceText } from "../corner/SentenceText.tsx";
import { SideTable } from "../gear/SideTable.tsx";
import { GapMark } from "../marks/GapMark.tsx";
import { Price } from "../moves/MoveList.tsx";
import { wayText } from "../moves/wayText.ts";
import { pointInfos } from "../points/pointInfo.ts";
import { pairsByKey } from "../store/pairsByKey.ts";
import { pairKey } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { angleText, lengthText, wantedText } from "../words/number.ts";
import { limitSentence, pairSentence } from "../words/sentences.ts";
import { AxlePlan } from "./AxlePlan.tsx";
import { RecoveryText } from "./RecoveryText.tsx";
import { keepCorrected } from "./welded.ts";

interface BuiltResultProps {
  readonly built: AsBuilt;
  readonly isOutdated: boolean;
}

/** What the mounts as welded do: angles, thrust, corrections, clearances. */
export function BuiltResult({ built, isOutdated }: BuiltResultProps) {
  const sides = (["left", "right"] as const).filter((side) => built.sides[side]);
  const of = (side: Side) => built.sides[side]!;
  const { meant, thrust_deg, thrustAfter_deg } = built;
  const angle = (value: number) => angleText(value, { signed: true });
  const cell = (value: number, off: number) => (
    <>
      {angle(value)}
      <small>{Math.abs(off) < LEAST_deg ? t("asBuilt.asMeant") : t("asBuilt.off", { angle: angle(off) })}</small>
    </>
  );
  return (
    <section className="built" data-stale={isOutdated} aria-label={t("asBuilt.result")}>
      <SideTable
        name={t("asBuilt.table")}
        sides={sides}
        rows={[
          {
            name: t("jig.readings.toe"),
            note: t("asBuilt.meant", { angle: angle(meant.toe_deg) }),
            cell: (side) => cell(of(side).toe_deg, of(side).toeError_deg),
          },
          {
            name: t("jig.readings.camber"),
            note: t("asBuilt.meant", { angle: angle(meant.camber_deg) }),
            cell: (side) => cell(of(side).camber_deg, of(side).camberError_deg),
          },
        ]}
      />
      {thrust_deg !== null && (
        <p>
          <Rich text={thrustText(thrust_deg)} />
        </p>
      )}
      <AxlePlan toe_deg={Object.fromEntries(sides.map((side) => [side, of(side).toe_deg]))} thrust_deg={thrust_deg} />
      {sides.map((side) => (
        <Corrections key={side} side={side} built={of(side)} isOutdated={isOutdated} />
      ))}
      {thrustAfter_deg !== null && (
        <p>
          <Rich text={t("asBuilt.recovery.thrust", { told: thrustText(thrustAfter_deg) })} />
        </p>
      )}
      {sides.map((side) => (
        <Clearances key={side} side={side} check={of(side).check} />
      ))}
    </section>
  );
}

/** An angle that no string box tells from none. */
const LEAST_deg = 0.005;

function thrustText(thrust_deg: number): string {
  if (Math.abs(thrust_deg) < LEAST_deg) return t("points.sides.thrust.straight");
  return t(`points.sides.thrust.${thrust_deg > 0 ? "right" : "left"}`, { angle: angleText(Math.abs(thrust_deg)) });
}

/** As many of the smallest are told. */
const MOST_CORRECTIONS = 3;

interface CorrectionsProps {
  readonly side: Side;
  readonly built: BuiltSide;
  readonly isOutdated: boolean;
}

/** The smallest moves that bring the side back, of one mount each. */
function Corrections({ side, built, isOutdated }: CorrectionsProps) {
  const { toeError_deg, camberError_deg, toeBack, bothBack, recovery } = built;
  const scene = useApp((state) => state.scene);
  const document = useApp((state) => state.document);
  const unit = useApp((state) => state.unit);
  const isToeOff = Math.abs(toeError_deg) >= LEAST_deg;
  const isCamberOff = Math.abs(camberError_deg) >= LEAST_deg;
  if (!isToeOff && !isCamberOff) return <p className="gear-clear">{t(`asBuilt.right.${side}`)}</p>;
  return (
    <div className="built-side">
      <h2>{t(`asBuilt.back.${side}`)}</h2>
      {recovery && document && (
        <div className="built-recovery">
          <h3>{t("asBuilt.recovery.title")}</h3>
          <RecoveryText recovery={recovery} document={document} unit={unit} />
          {recovery.settings.length > 0 && <Price price={recovery.price} scene={scene} />}
        </div>
      )}
      {isToeOff && <CorrectionList name={t("asBuilt.toeBack")} list={toeBack} side={side} isOutdated={isOutdated} />}
      {isCamberOff && (
        <CorrectionList name={t("asBuilt.bothBack")} list={bothBack} side={side} isOutdated={isOutdated} />
      )}
    </div>
  );
}

interface CorrectionListProps {
  readonly name: string;
  readonly list: BuiltSide["toeBack"];
  readonly side: Side;
  readonly isOutdated: boolean;
}

function CorrectionList({ name, list, side, isOutdated }: CorrectionListProps) {
  const document = useApp((state) => state.document);
  const unit = useApp((state) => state.unit);
  const shown = list.slice(0, MOST_CORRECTIONS);
  const longest_mm = Math.max(0.01, ...shown.map(({ by }) => length(by)));
  const infos = document ? pointInfos(document) : [];
  return (
    <>
      <h3>{name}</h3>
      {shown.length === 0 && <p>{t("asBuilt.noneAlone")}</p>}
      <ol className="jig-mounts" aria-label={name}>
        {shown.map(({ point, by }) => {
          const info = infos.find((each) => each.name === point);
          const title = info?.title ?? point;
          return (
            <li key={point} className="jig-place">
              <Way by={by} longest_mm={longest_mm} />
              <p>
                <Rich text={t("moves.pointWayStrong", { point: title, way: wayText(by, unit) })} />
              </p>
              <button
                type="button"
                className="button"
                disabled={isOutdated || !info}
                aria-label={t("asBuilt.takeLabel", { point: title })}
                onClick={() => info && keepCorrected(info, side, by)}
              >
                {t("asBuilt.take")}
              </button>
            </li>
          );
        })}
      </ol>
    </>
  );
}

function Way({ by, longest_mm }: { by: Vec3; longest_mm: number }) {
  const unit = useApp((state) => state.unit);
  return (
    <div className="move-way">
      <b className="tabular">{lengthText(length(by), unit)}</b>
      <span className="jig-share-bar" aria-hidden="true">
        <span style={{ width: `${(100 * length(by)) / longest_mm}%` }} />
      </span>
    </div>
  );
}

/** Pairs and limits of a side that do not hold as it was welded, with what the drawing has. */
function Clearances({ side, check }: { side: Side; check: CheckResult }) {
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const drawn = useApp((state) => state.resultBefore ?? state.result);
  const open = check.pairs
    .filter(({ verdict }) => verdict === "clash" || verdict === "tight")
    .sort((a, b) => a.clearance_mm - a.required_mm - (b.clearance_mm - b.required_mm));
  const limits = check.limits.filter(({ verdict }) => verdict === "clash");
  const was = drawn ? pairsByKey(drawn) : null;
  return (
    <div className="built-side">
      <h2>{t(`asBuilt.gaps.${side}`)}</h2>
      {open.length + limits.length === 0 && <p className="gear-clear">{t("asBuilt.allClear")}</p>}
      <ul className="built-gaps">
        {open.map((pair) => (
          <li key={`${pair.a} ${pair.b}`}>
            <button type="button" className="gap-spread" onClick={() => app.getState().choosePair(pairKey(pair))}>
              <GapMark kind={pair.verdict} size={22} />
              <span>
                <SentenceText sentence={pairSentence(pair, scene, unit)} kind={pair.verdict} />
                <small>{wasText(pair, was?.get(pairKey(pair)), unit)}</small>
              </span>
            </button>
          </li>
        ))}
        {limits.map((limit) => (
          <li key={`${limit.what} ${limit.joint} ${limit.limit}`} className="gap-spread">
            <GapMark kind="limit" size={22} />
            <span>{sentenceText(limit, scene, unit)}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}

function wasText(pair: PairVerdict, drawn: PairVerdict | undefined, unit: "mm" | "in"): string {
  const wanted = wantedText(pair.required_mm, unit);
  return drawn
    ? t("asBuilt.wantedDrawn", { wanted, drawn: lengthText(drawn.clearance_mm, unit) })
    : t("asBuilt.wanted", { wanted });
}

function sentenceText(limit: CheckResult["limits"][number], scene: Scene | null, unit: "mm" | "in") {
  return <SentenceText sentence={limitSentence(limit, scene, unit)} kind="limit" />;
}
