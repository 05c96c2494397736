import { useState } from "react";
import type { ModelFormat } from "../../fabrication/exchange/modelFile.ts";
import { drawnPart } from "../../scene/aside.ts";
import { askModel } from "../files/fileRoom.ts";
import { type FileKind, fileNameOf } from "../files/saveFile.ts";
import { MakingLine } from "../paper/MakingLine.tsx";
import { useMaking } from "../paper/making.ts";
import type { PaperFormProps } from "../paper/PaperDialog.tsx";
import { Picker } from "../parts/Picker.tsx";
import { standOf } from "../picture/pictureRequest.ts";
import { STANDS, type Stand } from "../picture/pictureStore.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";

const KINDS: Readonly<Record<ModelFormat, FileKind>> = {
  glb: { description: t("exchange.kinds.glb"), mime: "model/gltf-binary", ending: ".glb" },
  obj: { description: t("exchange.kinds.obj"), mime: "model/obj", ending: ".obj" },
  stl: { description: t("exchange.kinds.stl"), mime: "model/stl", ending: ".stl" },
  stls: { description: t("exchange.kinds.stls"), mime: "application/zip", ending: ".zip" },
};
const ALL = "";

/** The bodies as they stand, to be taken into another program. */
export function ModelFields({ document }: PaperFormProps) {
  const [stand, setStand] = useState<Stand>("shown");
  const [part, setPart] = useState(ALL);
  const scene = useApp((state) => state.scene);
  const bodies = useApp((state) => state.bodies);
  const making = useMaking();
  if (!scene) return null;
  const keys = bodies.map(({ key }) => key);
  const chosen = keys.includes(part) ? part : ALL;
  const formats: readonly ModelFormat[] = chosen === ALL ? ["stls", "obj", "glb"] : ["stl", "obj", "glb"];
  const save = (format: ModelFormat): void =>
    making.save(async () => {
      const state = app.getState();
      const request = {
        document: drawnPart(document),
        state: standOf(scene, state, { stand }),
        format,
        part: chosen === ALL ? null : chosen,
      };
      const content = await askModel(request, state.files).done;
      const kind = KINDS[format];
      return { content, name: fileNameOf([document.title, chosen].join(" "), kind.ending), kind };
    });
  const labelOf = ({ id, key, side }: (typeof bodies)[number]): string => {
    const name = key.includes("#") ? key.split("@")[0]! : id;
    return side === "both" ? nameOf(name, scene) : t(`exchange.onSide.${side}`, { part: nameOf(name, scene) });
  };
  return (
    <section className="exchange-part" aria-label={t("exchange.model")}>
      <h4>{t("exchange.model")}</h4>
      <p className="quiet">{t("exchange.modelAbout")}</p>
      <div className="picture-fields">
        <Picker
          label={t("exchange.part")}
          items={[
            { value: ALL, label: t("exchange.allParts") },
            ...bodies.map((body) => ({ value: body.key, label: labelOf(body) })),
          ]}
          value={chosen}
          onPick={setPart}
        />
        <Picker
          label={t("picture.stand")}
          items={STANDS.map((value) => ({ value, label: t(`picture.stands.${value}`) }))}
          value={stand}
          onPick={(value) => setStand(STANDS.find((each) => each === value)!)}
        />
      </div>
      <div className="exchange-buttons">
        {formats.map((format) => (
          <button key={format} type="button" className="button" disabled={making.busy} onClick={() => save(format)}>
            {t(`exchange.save.${format}`)}
          </button>
        ))}
      </div>
      <MakingLine making={making} />
    </section>
  );
}
