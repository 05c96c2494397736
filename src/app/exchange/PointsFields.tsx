import { useState } from "react";
import { type PointChange, pointChanges } from "../../fabrication/exchange/pointChanges.ts";
import { pointsTable, withPointsTable } from "../../fabrication/exchange/pointsTable.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { resolveScene } from "../../scene/resolve.ts";
import { chooseTable } from "../files/chooseFiles.ts";
import { fileNameOf } from "../files/saveFile.ts";
import { CSV_FILE } from "../paper/fileKinds.ts";
import { MakingLine } from "../paper/MakingLine.tsx";
import { useMaking } from "../paper/making.ts";
import type { PaperFormProps } from "../paper/PaperDialog.tsx";
import { chosenDatum } from "../paper/sheetFacts.ts";
import { DatumChooser } from "../points/DatumChooser.tsx";
import { moveWords } from "../points/moveWords.ts";
import { pointInfos } from "../points/pointInfo.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";

/** A table that was read and is not yet taken over. */
interface ReadTable {
  readonly file: string;
  /** Of this document it tells the changes. */
  readonly before: SceneDocument;
  readonly after: SceneDocument;
  readonly changes: readonly PointChange[];
}

/** Hard points out to a table and back in: what moves is told before it is kept, as one step. */
export function PointsFields({ document }: PaperFormProps) {
  const making = useMaking();
  const [read, setRead] = useState<ReadTable | null>(null);
  const told = read?.before === document ? read : null;
  const save = (): void =>
    making.save(async () => ({
      content: pointsTable(document, chosenDatum()),
      name: fileNameOf(t("exchange.pointsName", { scene: document.title }), CSV_FILE.ending),
      kind: CSV_FILE,
    }));
  const open = (): void =>
    making.run(async () => {
      const [file] = await chooseTable();
      if (!file) return null;
      setRead(null);
      const after = withPointsTable(document, await file.text(), chosenDatum());
      // what cannot stand is told before it is kept
      resolveScene(after);
      const changes = pointChanges(document, after);
      if (changes.length === 0) return t("exchange.nothingMoves", { file: file.name });
      setRead({ file: file.name, before: document, after, changes });
      return null;
    });
  const keep = ({ file, after, changes }: ReadTable): void => {
    setRead(null);
    making.run(async () => {
      app.getState().edit(t("exchange.step", { file }), after);
      return t("exchange.moved", { count: changes.length });
    });
  };
  return (
    <section className="exchange-part" aria-label={t("exchange.points")}>
      <h4>{t("exchange.points")}</h4>
      <p className="quiet">{t("exchange.pointsAbout")}</p>
      <DatumChooser />
      <div className="exchange-buttons">
        <button type="button" className="button" disabled={making.busy} onClick={save}>
          {t("exchange.savePoints")}
        </button>
        <button type="button" className="button" disabled={making.busy} onClick={open}>
          {t("exchange.openPoints")}
        </button>
      </div>
      {told && <Changes table={told} onKeep={() => keep(told)} onDrop={() => setRead(null)} />}
      <MakingLine making={making} />
    </section>
  );
}

interface ChangesProps {
  readonly table: ReadTable;
  onKeep(): void;
  onDrop(): void;
}

function Changes({ table, onKeep, onDrop }: ChangesProps) {
  const { file, before, changes } = table;
  const unit = useApp((state) => state.unit);
  const titles = new Map(pointInfos(before).map(({ name, title }) => [name, title]));
  const datum = chosenDatum();
  return (
    <div className="exchange-changes" role="status">
      <p>
        <b>{t("exchange.wouldMove", { file, count: changes.length })}</b>
      </p>
      <ul>
        {changes.map(({ name, from, to }) => {
          const { way, far } = moveWords(from, to, datum, unit);
          return <li key={name}>{t("exchange.change", { point: titles.get(name) ?? name, way, far })}</li>;
        })}
      </ul>
      <div className="exchange-buttons">
        <button type="button" className="button" onClick={onDrop}>
          {t("exchange.leave")}
        </button>
        <button type="button" className="button go" onClick={onKeep}>
          {t("exchange.take", { count: changes.length })}
        </button>
      </div>
    </div>
  );
}
