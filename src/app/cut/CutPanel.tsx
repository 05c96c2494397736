import { useId } from "react";
import { bodyText } from "../measure/measureWords.ts";
import { nameOfBody } from "../measure/pickUnder.ts";
import { Picker } from "../parts/Picker.tsx";
import { pointInfos } from "../points/pointInfo.ts";
import { Choices } from "../shell/Choices.tsx";
import { viewHandle } from "../shell/viewHandle.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { axisOf } from "./cutPlane.ts";
import { type CutWay, chooseWay, moveTo, useCut } from "./cutStore.ts";
import { offsetText } from "./offsetText.ts";

import type { CutView } from "./useCutPlane.ts";

const WAYS = ["off", "across", "along", "level", "axis"] as const;

/** How the section plane lies and where; which half is shown. */
export function CutPanel({ view: { plane } }: { view: CutView }) {
  const { way, isFlipped } = useCut();
  const unit = useApp((state) => state.unit);
  const slider = useId();
  return (
    <>
      <Choices
        label={t("cut.wayLabel")}
        options={WAYS.map((value) => ({ value, name: t(`cut.ways.${value}`) }))}
        value={way ?? "off"}
        onChoose={(value) => chooseWay(value === "off" ? null : (value as CutWay))}
      />
      {way === "axis" && <BodyPicker />}
      {way !== null && way !== "axis" && <PointPicker />}
      {way !== null && plane && (
        <>
          <label className="tool-slider" htmlFor={slider}>
            <span className="quiet">{t("cut.slider")}</span> {offsetText(way, plane.offset_mm, unit)}
          </label>
          <input
            id={slider}
            type="range"
            min={Math.floor(plane.range_mm[0])}
            max={Math.ceil(plane.range_mm[1])}
            step={1}
            value={Math.round(plane.offset_mm)}
            aria-valuetext={offsetText(way, plane.offset_mm, unit)}
            onChange={(event) => moveTo(Number(event.target.value))}
          />
          <div className="tool-buttons">
            <button
              type="button"
              className="button"
              aria-pressed={isFlipped}
              onClick={() => useCut.setState({ isFlipped: !isFlipped })}
            >
              {t("cut.flip")}
            </button>
            <button
              type="button"
              className="button"
              onClick={() => {
                const { at, normal, half_mm } = plane;
                viewHandle.current?.frame({ at, from: normal, span_mm: 2.1 * Math.min(...half_mm) });
              }}
            >
              {t("cut.face")}
            </button>
          </div>
        </>
      )}
      <p className="tool-note">{t("cut.note")}</p>
    </>
  );
}

function PointPicker() {
  const document = useApp((state) => state.document);
  const point = useCut((state) => state.point);
  const items = document ? pointInfos(document).map(({ name, title }) => ({ value: name, label: title })) : [];
  return (
    <Picker
      label={t("cut.point")}
      items={[{ value: "", label: t("cut.noPoint") }, ...items]}
      value={point ?? ""}
      onPick={(name) => useCut.setState({ point: name === "" ? null : name })}
    />
  );
}

function BodyPicker() {
  const document = useApp((state) => state.document);
  const scene = useApp((state) => state.scene);
  const bodies = useApp((state) => state.bodies);
  const body = useCut((state) => state.body);
  if (!scene) return null;
  const items = bodies
    .filter((each) => each.mount !== "chassis" && axisOf(each, { scene }) !== null)
    .map((each) => ({ value: each.key, label: bodyText(nameOfBody(each), document) }));
  return (
    <Picker
      label={t("cut.body")}
      items={[{ value: "", label: t("cut.noBody") }, ...items]}
      value={body ?? ""}
      onPick={(key) => useCut.setState({ body: key === "" ? null : key, offset_mm: 0 })}
    />
  );
}
