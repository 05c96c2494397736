import type { SceneDocument } from "../../scene/document.ts";
import type { Scene } from "../../scene/scene.ts";
import { Picker } from "../parts/Picker.tsx";
import type { PointInfo } from "../points/pointInfo.ts";
import { Choices } from "../shell/Choices.tsx";
import { countText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { Asked, ShortLength, ShortNumber } from "./RoomFields.tsx";
import {
  type AskedRange,
  AXES,
  askablePoints,
  commonFits,
  MOST_SHOWN,
  partWay,
  placesIn,
  type Reach,
  type RoomForm,
  SHAPES,
  sceneLimits,
  type Way,
  waysOf,
  withPoint,
  withSecond,
} from "./roomForm.ts";
import { useRoom } from "./roomStore.ts";
import { limitText } from "./roomWords.ts";

interface FormProps {
  readonly form: RoomForm;
  readonly document: SceneDocument;
  readonly scene: Scene;
}

function put(form: RoomForm): void {
  useRoom.setState({ form });
}

/** Which point, where to look, and what must hold there. */
export function RoomFormView({ form, document, scene }: FormProps) {
  const points = askablePoints(document);
  const info = points.find(({ name }) => name === form.point);
  const items = points.map(({ name, title }) => ({ value: name, label: title }));
  const fits = commonFits(document, [form.point, form.second]);
  if (!info) return null;
  return (
    <div className="room-form">
      <Picker
        label={t("room.point")}
        items={items}
        value={form.point}
        onPick={(name) => put(withPoint(form, document, name))}
      />
      <Picker
        label={t("room.second")}
        items={[{ value: "", label: t("room.alone") }, ...items.filter(({ value }) => value !== form.point)]}
        value={form.second ?? ""}
        onPick={(name) => put(withSecond(form, document, name === "" ? null : name))}
      />
      <div className="room-line">
        <span>{t("room.fit.label")}</span>
        {fits.length > 1 ? (
          <Choices
            label={t("room.fit.label")}
            options={fits.map((value) => ({ value, name: t(`room.fit.${value}`) }))}
            value={form.fit}
            onChoose={(fit) => put({ ...form, fit })}
          />
        ) : (
          <b>{fits[0] && t(`room.fit.${fits[0]}`)}</b>
        )}
      </div>
      <p className="tool-note">{fits.length > 0 ? t(`room.fitNote.${form.fit}`) : t("room.noFit")}</p>
      <Within form={form} scene={scene} info={info} />
      <Holds form={form} scene={scene} />
    </div>
  );
}

function Within({ form, scene, info }: { form: RoomForm; scene: Scene; info: PointInfo }) {
  const ways: readonly Way[] = partWay(scene, info) ? [...AXES, "part"] : AXES;
  const count = placesIn(form);
  const reach = (way: Way, change: Partial<Reach>) =>
    put({ ...form, reach: { ...form.reach, [way]: { ...form.reach[way], ...change } } });
  return (
    <fieldset className="room-group">
      <legend>{t("room.within")}</legend>
      <Choices
        label={t("room.shape.label")}
        options={SHAPES.map((value) => ({ value, name: t(`room.shape.${value}`) }))}
        value={form.shape}
        onChoose={(shape) => put({ ...form, shape })}
      />
      {form.shape === "plane" && (
        <Choices
          label={t("room.across.label")}
          options={AXES.map((value) => ({ value, name: t(`room.across.${value}`) }))}
          value={form.across}
          onChoose={(across) => put({ ...form, across })}
        />
      )}
      {form.shape === "line" && (
        <Choices
          label={t("room.along.label")}
          options={ways.map((value) => ({ value, name: t(`room.along.${value}`) }))}
          value={form.along}
          onChoose={(along) => put({ ...form, along })}
        />
      )}
      <div className="room-reach">
        {waysOf(form).flatMap((way) =>
          (["less", "more"] as const).map((end) => (
            <ShortLength
              key={`${way} ${end}`}
              label={t(`room.reach.${way}.${end}`)}
              value={form.reach[way][`${end}_mm`]}
              onChange={(value) => reach(way, { [`${end}_mm`]: Math.max(0, value) })}
            />
          )),
        )}
        <ShortLength
          label={t("room.step")}
          value={form.step_mm}
          onChange={(step_mm) => step_mm > 0 && put({ ...form, step_mm })}
        />
        <ShortLength
          label={t("room.travelStep")}
          value={form.travelStep_mm}
          onChange={(value) => value >= 1 && put({ ...form, travelStep_mm: value })}
        />
      </div>
      <p className={count > MOST_SHOWN ? "room-trouble" : "tool-note"} role="status">
        {count > MOST_SHOWN
          ? t("room.tooMany", { most: countText(MOST_SHOWN) })
          : t("room.places", { count, number: countText(count) })}
      </p>
    </fieldset>
  );
}

type Keyed = "camber" | "ratio";

function Holds({ form, scene }: { form: RoomForm; scene: Scene }) {
  const range = (
    label: string,
    asked: AskedRange,
    change: (asked: AskedRange) => void,
    field: "length" | "angle" | "plain",
  ) => {
    const shared = (end: "least" | "most") => ({
      label: t(`room.${end}`, { what: label }),
      value: asked[end],
      isNamedAlready: true,
      onChange: (value: number) => change({ ...asked, [end]: value }),
    });
    return (
      <Asked key={label} label={label} on={asked.on} onSwitch={(on) => change({ ...asked, on })}>
        {(["least", "most"] as const).map((end) =>
          field === "length" ? (
            <ShortLength key={end} {...shared(end)} />
          ) : (
            <ShortNumber key={end} {...shared(end)} unit={field === "angle" ? "°" : ""} />
          ),
        )}
      </Asked>
    );
  };
  const putKeyed = (key: Keyed) => (asked: AskedRange) => put({ ...form, [key]: asked });
  return (
    <fieldset className="room-group">
      <legend>{t("room.holds")}</legend>
      <p className="tool-note">{t("room.clearances")}</p>
      <Asked label={t("room.toe")} on={form.toe.on} onSwitch={(on) => put({ ...form, toe: { ...form.toe, on } })}>
        <ShortNumber
          label={t("room.toe")}
          isNamedAlready
          value={form.toe.most}
          unit="°"
          onChange={(most) => put({ ...form, toe: { ...form.toe, most: Math.abs(most) } })}
        />
      </Asked>
      {form.toe.on && <p className="tool-note">{t("room.ofToe")}</p>}
      {range(t("room.camber"), form.camber, putKeyed("camber"), "angle")}
      <Asked
        label={t("room.halfTrack")}
        on={form.halfTrack.on}
        onSwitch={(on) => put({ ...form, halfTrack: { ...form.halfTrack, on } })}
      >
        <ShortLength
          label={t("room.halfTrack")}
          isNamedAlready
          value={form.halfTrack.most}
          onChange={(most) => put({ ...form, halfTrack: { ...form.halfTrack, most: Math.abs(most) } })}
        />
      </Asked>
      {scene.damper && range(t("room.ratio"), form.ratio, putKeyed("ratio"), "plain")}
      {Object.entries(form.lengths).map(([id, asked]) =>
        range(
          t("room.memberLength", { part: nameOf(id, scene) }),
          asked,
          (changed) => put({ ...form, lengths: { ...form.lengths, [id]: changed } }),
          "length",
        ),
      )}
      <SceneLimits form={form} scene={scene} />
    </fieldset>
  );
}

/** The limits that the scene itself states, each counted unless it is left out; and pairs that are left out. */
function SceneLimits({ form, scene }: { form: RoomForm; scene: Scene }) {
  const names = sceneLimits(scene);
  const isOut = (name: string) => form.leaveOut.includes(name);
  const pairs = form.leaveOut.filter((name) => !names.includes(name));
  const turn = (name: string) =>
    put({
      ...form,
      leaveOut: isOut(name) ? form.leaveOut.filter((each) => each !== name) : [...form.leaveOut, name],
    });
  return (
    <>
      {names.length > 0 && (
        <details className="room-details">
          <summary>{t("room.scene")}</summary>
          {names.map((name) => (
            <label key={name} className="room-check">
              <input type="checkbox" checked={!isOut(name)} onChange={() => turn(name)} />
              <span>{limitText(name, scene)}</span>
            </label>
          ))}
        </details>
      )}
      {pairs.length > 0 && (
        <div className="room-left-out">
          <span className="quiet">{t("room.leftOut")}</span>
          {pairs.map((name) => {
            const [a = "", b = ""] = name.split("/");
            const what = t("room.pair.both", { a: nameOf(a, scene), b: nameWithin(b, scene) });
            return (
              <button
                key={name}
                type="button"
                className="button"
                aria-label={t("room.countAgain", { what })}
                onClick={() => turn(name)}
              >
                {what} ×
              </button>
            );
          })}
        </div>
      )}
    </>
  );
}
