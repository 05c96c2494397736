import { useState } from "react";
import { bounds } from "../../geometry/measure.ts";
import { applyPose } from "../../maths/pose.ts";
import { scale, type Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { drawnMounts } from "../../scene/parts/mount.ts";
import { type PowertrainPlace, placePowertrain } from "../../scene/parts/powertrain.ts";
import { pointResolver } from "../../scene/pointResolver.ts";
import { fine } from "../../scene/recipes/recipe.ts";
import { LengthField } from "../points/LengthField.tsx";
import { app, useApp } from "../store/useApp.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import { KeepFoot, TriedLine, useKeepKeys } from "./PartSheet.tsx";
import { PointPicker } from "./PlaceFields.tsx";
import { troubleText } from "./partDraft.ts";
import { usePartsLook } from "./partsStore.ts";
import { PlainField } from "./SizeField.tsx";
import "../points/point.css";
import "./parts.css";

const POWERTRAIN = "powertrain";
const SHIFTS = ["forward", "left", "up"] as const;
/** In the order of turn_deg: about X, Y, Z by the right hand, X forward, Y left, Z up. */
const TURNS = ["roll", "tilt", "swing"] as const;

/** Engine, gearbox, sump and what else rides on the powertrain moved and tilted as one. */
export function PowertrainSheet({ document }: { document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const triedEdit = useApp((state) => (state.triedEdit?.part === POWERTRAIN ? state.triedEdit : null));
  const [refused, setRefused] = useState<InputError | null>(null);
  const bodies = useApp((state) => state.bodies);
  useKeepKeys();
  const place = (triedEdit?.document ?? document).powertrain?.place ?? {
    shift_mm: [0, 0, 0] as const,
    turn_deg: [0, 0, 0] as const,
    about: document.powertrain?.poses?.[0]?.about ?? middleOf(bodies),
  };
  const attempt = (next: PowertrainPlace | null) => {
    try {
      const tried = placePowertrain(document, next);
      setRefused(null);
      app.getState().tryEdit({ part: POWERTRAIN, document: tried, stepName: stepOf(next) });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      setRefused(error);
    }
  };
  const set = (key: "shift_mm" | "turn_deg", axis: number, value: number) =>
    attempt({ ...place, [key]: place[key].map((old, i) => (i === axis ? value : old)) as unknown as Vec3 });
  return (
    <section className="points-sheet" aria-label={t("parts.powertrain.title")}>
      <div className="points-scroll point-body">
        <div className="point-title">
          <h2>{t("parts.powertrain.title")}</h2>
          <button
            type="button"
            className="button plain"
            onClick={() => usePartsLook.setState({ powertrainOpen: false })}
          >
            {t("parts.allParts")}
          </button>
        </div>
        <p className="fine quiet">{t("parts.powertrain.lead")}</p>
        <div className="point-columns">
          <div>
            {SHIFTS.map((way, axis) => (
              <LengthField
                key={way}
                label={t(`parts.ways.${way}`)}
                from={t("parts.powertrain.fromDrawn")}
                value_mm={place.shift_mm[axis]!}
                unit={unit}
                onChange={(value) => set("shift_mm", axis, value)}
                onKeep={() => app.getState().keepEdit()}
                onPutBack={() => app.getState().putBack()}
              />
            ))}
            {TURNS.map((turn, axis) => (
              <PlainField
                key={turn}
                label={t(`parts.powertrain.turns.${turn}`)}
                value={place.turn_deg[axis]!}
                unit={t("parts.fields.degrees")}
                step={0.5}
                trouble={null}
                onChange={(value) => set("turn_deg", axis, value)}
              />
            ))}
            <PointPicker
              label={t("parts.powertrain.about")}
              document={document}
              value={place.about}
              onChange={(about) => attempt(turnedAbout(document, place, about))}
            />
            <button
              type="button"
              className="button as-drawn"
              disabled={!(triedEdit?.document ?? document).powertrain?.place}
              onClick={() => attempt(null)}
            >
              {t("parts.powertrain.back")}
            </button>
          </div>
          <div>
            {refused && (
              <p className="point-error" role="alert">
                {troubleText(refused)}
              </p>
            )}
          </div>
        </div>
      </div>
      {triedEdit && <TriedLine words={triedEdit.stepName} />}
      <KeepFoot isTried={triedEdit !== null} isTroubled={refused !== null} />
    </section>
  );
}

/** "powertrain up 5.0 mm, tilt, nose down 2°" */
function stepOf(place: PowertrainPlace | null): string {
  if (place === null) return t("parts.powertrain.stepBack");
  const { unit } = app.getState();
  const shifts = SHIFTS.flatMap((way, i) => {
    const amount = lengthText(place.shift_mm[i]!, unit);
    return place.shift_mm[i] === 0 ? [] : [t(`parts.powertrain.steps.${way}`, { amount })];
  });
  const turns = TURNS.flatMap((turn, i) => {
    const amount = `${place.turn_deg[i]}°`;
    return place.turn_deg[i] === 0 ? [] : [t(`parts.powertrain.steps.${turn}`, { amount })];
  });
  const changes = [...shifts, ...turns];
  if (changes.length === 0) return t("parts.powertrain.stepAbout");
  return t("parts.powertrain.step", { changes: listText(changes, "unit") });
}

/** The same place told about another point: the shift makes up for it, so that nothing moves. */
function turnedAbout(document: SceneDocument, place: PowertrainPlace, about: PointDocument): PowertrainPlace {
  const at = pointResolver(document).drawn(about, "powertrain.place.about");
  const pose = drawnMounts({ ...document, powertrain: { place } })(POWERTRAIN);
  return { ...place, about, shift_mm: fine(applyPose(pose, at).map((value, i) => value - at[i]!) as unknown as Vec3) };
}

/** Of what rides on the powertrain, to a millimetre. */
function middleOf(bodies: ReturnType<typeof app.getState>["bodies"]): Vec3 {
  const boxes = bodies.filter(({ mount }) => mount === POWERTRAIN).map(({ solid }) => bounds(solid));
  if (boxes.length === 0) return [0, 0, 300];
  const ends = [0, 1, 2].map((i) => [
    Math.min(...boxes.map(({ min }) => min[i]!)),
    Math.max(...boxes.map(({ max }) => max[i]!)),
  ]);
  const middle = scale(ends.map(([low, high]) => low! + high!) as unknown as Vec3, 0.5);
  return middle.map(Math.round) as unknown as Vec3;
}
