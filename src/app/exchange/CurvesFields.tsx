import { fileNameOf } from "../files/saveFile.ts";
import { CSV_FILE } from "../paper/fileKinds.ts";
import { MakingLine } from "../paper/MakingLine.tsx";
import { useMaking } from "../paper/making.ts";
import type { PaperFormProps } from "../paper/PaperDialog.tsx";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { engineText } from "../words/names.ts";

/** Every curve against travel, in the engine's pose that is shown, as a table. */
export function CurvesFields({ document }: PaperFormProps) {
  const making = useMaking();
  const pose = useApp((state) => state.pose);
  const save = (): void =>
    making.save(async () => {
      const [{ curvesTable }, { resolveScene }] = await Promise.all([
        import("../../studies/runningGear/curvesTable.ts"),
        import("../../scene/resolve.ts"),
      ]);
      return {
        content: curvesTable(resolveScene(document), app.getState().pose),
        name: fileNameOf(t("exchange.curvesName", { scene: document.title }), CSV_FILE.ending),
        kind: CSV_FILE,
      };
    });
  return (
    <section className="exchange-part" aria-label={t("exchange.curves")}>
      <h4>{t("exchange.curves")}</h4>
      <p className="quiet">{t("exchange.curvesAbout", { engine: engineText(pose) })}</p>
      <div className="exchange-buttons">
        <button type="button" className="button" disabled={making.busy} onClick={save}>
          {t("exchange.saveCurves")}
        </button>
      </div>
      <MakingLine making={making} />
    </section>
  );
}
