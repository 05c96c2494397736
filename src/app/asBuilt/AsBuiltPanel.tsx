import { useMemo, useState } from "react";
import type { Side } from "../../scene/scene.ts";
import { DatumChooser } from "../points/DatumChooser.tsx";
import { usePointsLook } from "../points/pointsStore.ts";
import { datumOf } from "../points/usePointMove.ts";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { StudyLine, useIsOutdated } from "../studies/StudyLine.tsx";
import { t } from "../text/text.ts";
import { asBuiltStudy, builtQuestion, useAsBuiltLook } from "./asBuiltStore.ts";
import { BuiltResult } from "./BuiltResult.tsx";
import { MeansForm } from "./MeansForm.tsx";
import { PullSection } from "./PullSection.tsx";
import { WeldedRow } from "./WeldedRow.tsx";
import { mountInfos } from "./welded.ts";
import "../corner/ledger.css";
import "../gear/gear.css";
import "../loads/loads.css";
import "../points/point.css";
import "../points/points.css";
import "../points/sides/sides.css";
import "../points/tape/tape.css";
import "./asBuilt.css";

/** Where the mounts ended up on either side, what that does, and what brings it back. */
export function AsBuiltPanel() {
  const document = useApp((state) => state.document);
  const means = useAsBuiltLook((state) => state.means);
  const question = useMemo(() => document && builtQuestion(document, means), [document, means]);
  const isOutdated = useIsOutdated(asBuiltStudy, question);
  const told = asBuiltStudy.use((state) => state.told);
  if (!document) return null;
  return (
    <div className="loads-scroll as-built">
      <p>{t("asBuilt.lead")}</p>
      <Welded />
      <MeansForm document={document} />
      <StudyLine study={asBuiltStudy} question={question} go={t("asBuilt.go")} again={t("asBuilt.again")} />
      {told && <BuiltResult built={told.result} isOutdated={isOutdated} />}
      <PullSection document={document} />
      <p className="tool-note">{t("asBuilt.caution")}</p>
    </div>
  );
}

/** The mounts of one side, each with where it was welded. */
function Welded() {
  const document = useApp((state) => state.document);
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const look = useAsBuiltLook((state) => state.side);
  const datumId = usePointsLook((state) => state.datumId);
  const [isOpen, setOpen] = useState(true);
  if (!document) return null;
  const sides: readonly Side[] = document.sides === "both" ? ["left", "right"] : [document.sides];
  const side = sides.includes(look) ? look : sides[0]!;
  const infos = mountInfos(document);
  const told = Object.keys(document.measured?.[side] ?? {}).filter((name) => infos.some((info) => info.name === name));
  return (
    <details className="loads-how welded" open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {t("asBuilt.entered", { side: t(`words.sides.${side}`), told: told.length, all: infos.length })}
      </summary>
      {sides.length > 1 && (
        <Choices
          label={t("asBuilt.side")}
          options={sides.map((value) => ({ value, name: t(`gear.sides.${value}`) }))}
          value={side}
          onChoose={(chosen: Side) => useAsBuiltLook.setState({ side: chosen })}
        />
      )}
      <DatumChooser />
      {infos.length === 0 ? (
        <p>{t("jig.noMounts")}</p>
      ) : (
        <ol className="welded-list" aria-label={t(`asBuilt.list.${side}`)}>
          {infos.map((info) => (
            <WeldedRow
              key={`${side} ${info.name}`}
              info={info}
              side={side}
              document={document}
              datum={datumOf(scene, datumId)}
              unit={unit}
            />
          ))}
        </ol>
      )}
    </details>
  );
}
