import { cross, distance, mirror, type Vec3 } from "../../../maths/vec3.ts";
import { toDatum } from "../../../scene/datum.ts";
import type { Datum, Side } from "../../../scene/scene.ts";
import { spreadAlong, type TapedPlace, type TapeFix } from "../../../scene/tape.ts";
import type { TapeSuspicion } from "../../../scene/tapeSuspects.ts";
import type { Unit } from "../../store/state.ts";
import { Rich } from "../../text/Rich.tsx";
import { t } from "../../text/text.ts";
import { lengthNumber, lengthText } from "../../words/number.ts";
import { sideOfStuds } from "./sideWords.ts";
import { TapeSketch } from "./TapeSketch.tsx";
import type { DraftReading, TapeSetting } from "./tapeDraft.ts";

interface TapeResultProps {
  readonly setting: TapeSetting;
  readonly reading: DraftReading;
  readonly fix: TapeFix;
  readonly chosen: number;
  readonly suspicion: TapeSuspicion;
  readonly thought: Vec3;
  onChoose(chosen: number): void;
  /** Puts another length into the line. */
  onMend(key: number, length_mm: number): void;
}

/** Both places the tapes allow, how far each is to be trusted, and which tape is not. */
export function TapeResult(props: TapeResultProps) {
  const { setting, reading, fix, chosen, suspicion, thought, onChoose } = props;
  const { datum, side, unit } = setting;
  const sides = fix.places.map(({ height_mm }) => {
    const off = height_mm < 0 ? -1 : 1;
    return sideOfStuds(fix.normal.map((value) => value * off) as unknown as Vec3, side);
  });
  return (
    <div className="tape-result">
      <Suspicion {...props} />
      <fieldset className="tape-places" aria-label={t("points.tape.which")}>
        {fix.places.map((place, i) => (
          <button
            // biome-ignore lint/suspicious/noArrayIndexKey: places have nothing else
            key={i}
            type="button"
            aria-pressed={i === chosen}
            onClick={() => onChoose(i)}
          >
            <b>{sides[i]}</b>
            <span className="tabular">{placeText(place.at, datum, side, unit)}</span>
            <small>
              {place.isRuledOut
                ? t("points.tape.ruledOut", { size: lengthText(place.misfit_mm, unit) })
                : t("points.tape.fromDrawn", { size: lengthText(distance(place.at, thought), unit) })}
            </small>
          </button>
        ))}
      </fieldset>
      <TapeSketch fix={fix} tapes={reading.tapes} chosen={chosen} sides={sides} suspect={suspicion.suspect} />
      <p>
        <Rich text={t("points.tape.spread", { sizes: spreadText(fix.places[chosen]!, datum, side, unit) })} />
      </p>
      <p className="fine quiet">
        {reading.tapes.length === 3
          ? t("points.tape.three")
          : t("points.tape.misfit", { size: lengthText(fix.places[chosen]!.misfit_mm, unit) })}
      </p>
    </div>
  );
}

function Suspicion({ suspicion, reading, setting, onMend }: TapeResultProps) {
  const { unit } = setting;
  const { isFlagged, suspect, isOneOfSeveral, opinions } = suspicion;
  if (!isFlagged) return null;
  if (suspect === null) {
    return (
      <p className="point-error" role="alert">
        <Rich text={t("points.tape.disagree")} />
      </p>
    );
  }
  const [tape, opinion] = [reading.tapes[suspect]!, opinions[suspect]!];
  const mended_mm = opinion.slip_mm ?? opinion.wanted_mm;
  return (
    <div className="point-error" role="alert">
      <p>
        <Rich
          text={t(`points.tape.${isOneOfSeveral ? "likely" : "wrong"}`, {
            number: suspect + 1,
            typed: lengthText(tape.length_mm, unit),
            wanted: lengthNumber(opinion.wanted_mm, unit),
            spread: lengthNumber(opinion.spread_mm, unit),
            moves: lengthText(opinion.moves_mm, unit),
          })}
        />
      </p>
      <button type="button" className="button" onClick={() => onMend(tape.key, mended_mm)}>
        {t("points.tape.take", { size: lengthText(mended_mm, unit) })}
      </button>
    </div>
  );
}

function placeText(at: Vec3, datum: Datum | null, side: Side, unit: Unit): string {
  const { forward_mm, out_mm, up_mm } = toDatum(datum, at, side);
  return [forward_mm, out_mm, up_mm].map((mm) => lengthNumber(mm, unit)).join(", ");
}

/** Forward, out and up of the datum as directions of the car, on that side. */
function axesOf(datum: Datum | null, side: Side): Vec3[] {
  const { forward, up }: Pick<Datum, "forward" | "up"> = datum ?? { forward: [1, 0, 0], up: [0, 0, 1] };
  const axes = [forward, cross(up, forward), up];
  return side === "left" ? axes : axes.map(mirror);
}

export function spreadsOf(place: TapedPlace, datum: Datum | null, side: Side): number[] {
  return axesOf(datum, side).map((axis) => spreadAlong(place, axis));
}

function spreadText(place: TapedPlace, datum: Datum | null, side: Side, unit: Unit): string {
  return spreadsOf(place, datum, side)
    .map((mm) => lengthNumber(mm, unit))
    .join(", ");
}
