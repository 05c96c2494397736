import type { Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "../../scene/document.ts";
import { jointNames } from "../../scene/jointNames.ts";
import { partsOf } from "../../scene/parts/parts.ts";
import { Picker } from "../parts/Picker.tsx";
import { PlaceField } from "../parts/PlaceFields.tsx";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { capital, partName } from "./serviceText.ts";

const CAR = "\u0000";

interface PlaceProps {
  readonly document: SceneDocument;
  readonly unit: Unit;
  readonly value: PointDocument;
  onChange(point: PointDocument): void;
}

/** A place from the car's origin, or so far from a hard point, whose moves it follows. */
export function ServicePlace({ document, unit, value, onChange }: PlaceProps) {
  const isBare = Array.isArray(value);
  const held = isBare ? null : (value as Exclude<PointDocument, Vec3>);
  const from = held === null ? CAR : typeof held === "string" ? held : (held as { from: string }).from;
  const by: Vec3 = held === null ? (value as Vec3) : typeof held === "string" ? [0, 0, 0] : (held as { by: Vec3 }).by;
  return (
    <>
      <Picker
        label={t("service.form.from")}
        items={[
          { value: CAR, label: t("service.form.car") },
          ...Object.keys(document.points).map((name) => ({ value: name, label: name })),
        ]}
        value={from}
        onPick={(picked) => onChange(picked === CAR ? by : { from: picked, by: held === null ? [0, 0, 0] : by })}
      />
      <div className="service-place">
        <PlaceField value={by} unit={unit} onChange={(at) => onChange(from === CAR ? at : { from, by: at })} />
      </div>
    </>
  );
}

/** Parts that can be off, and joints whose bolt can be out. */
export function removable(document: SceneDocument): readonly { readonly id: string; readonly label: string }[] {
  return [
    ...partsOf(document).map(({ id }) => ({ id, label: capital(partName(id, document)) })),
    ...jointNames(document).map((id) => ({
      id,
      label: capital(t("service.form.joint", { joint: partName(id, document) })),
    })),
  ];
}

interface RemovedProps {
  readonly document: SceneDocument;
  readonly value: readonly string[];
  onChange(removed: readonly string[]): void;
}

/** What is off by the time the job is done. */
export function RemovedTicks({ document, value, onChange }: RemovedProps) {
  const all = removable(document);
  return (
    <details className="loads-how">
      <summary>
        {value.length > 0 ? t("service.form.removedSome", { count: value.length }) : t("service.form.removed")}
      </summary>
      <fieldset className="study-ticks" aria-label={t("service.form.removed")}>
        {all.map(({ id, label }) => (
          <label key={id} className="study-tick">
            <input
              type="checkbox"
              checked={value.includes(id)}
              onChange={(event) =>
                onChange(event.target.checked ? [...value, id] : value.filter((each) => each !== id))
              }
            />
            <span>{label}</span>
          </label>
        ))}
      </fieldset>
    </details>
  );
}
