import { cross, distance, mirror, type Vec3 } from "../../../maths/vec3.ts";
import { toDatum } from "../../../scene/datum.ts";
import type { Datum, Side } from "../../../scene/scene.ts";
import { spreadAlong, type TapedPlace, type TapeFix } from "../../../scene/tape.ts";
import type { TapeSuspicion } from "../../../scene/tapeSuspects.ts";
import type { Unit } from "../../store/state.ts";
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
      <fieldset className="tape-places" aria-label="Which side of the studs">
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
                ? `ruled out: the tapes miss it by ${lengthText(place.misfit_mm, unit)}`
                : `${lengthText(distance(place.at, thought), unit)} from where it is drawn`}
            </small>
          </button>
        ))}
      </fieldset>
      <TapeSketch fix={fix} tapes={reading.tapes} chosen={chosen} sides={sides} suspect={suspicion.suspect} />
      <p>
        Good to <b>± {spreadText(fix.places[chosen]!, datum, side, unit)}</b> forward, out, up: two in three places
        taped like this lie within.
      </p>
      <p className="fine quiet">
        {reading.tapes.length === 3
          ? "Three tapes always agree, right or wrong. A fourth stud finds a slip, and makes the place surer."
          : `Misfit of all tapes together ${lengthText(fix.places[chosen]!.misfit_mm, unit)}.`}
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
        <b>The tapes do not agree,</b> and any of them may be the wrong one. Read them again, or tape a further stud: it
        tells which.
      </p>
    );
  }
  const [tape, opinion] = [reading.tapes[suspect]!, opinions[suspect]!];
  const mended_mm = opinion.slip_mm ?? opinion.wanted_mm;
  return (
    <div className="point-error" role="alert">
      <p>
        <b>
          Tape {suspect + 1} {isOneOfSeveral ? "is most likely mistyped" : "is wrong"}:
        </b>{" "}
        {lengthText(tape.length_mm, unit)} is typed, the others say {lengthNumber(opinion.wanted_mm, unit)} ±{" "}
        {lengthNumber(opinion.spread_mm, unit)}. It moves the point {lengthText(opinion.moves_mm, unit)}.
        {isOneOfSeveral && " With one tape more than needed the figures alone do not prove it: read it again."}
      </p>
      <button type="button" className="button" onClick={() => onMend(tape.key, mended_mm)}>
        Take {lengthText(mended_mm, unit)}
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
