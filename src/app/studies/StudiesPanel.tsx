import type { ComponentType } from "react";
import { AsBuiltPanel } from "../asBuilt/AsBuiltPanel.tsx";
import { JigPanel } from "../jig/JigPanel.tsx";
import { MovesPanel } from "../moves/MovesPanel.tsx";
import { Picker } from "../parts/Picker.tsx";
import { RoomPanel } from "../room/RoomPanel.tsx";
import { ServicePanel } from "../service/ServicePanel.tsx";
import type { Layout } from "../shell/useLayout.ts";
import { t } from "../text/text.ts";
import { TogetherPanel } from "../together/TogetherPanel.tsx";
import { ToolHead } from "../tools/ToolPanel.tsx";
import { closeTools } from "../tools/toolsStore.ts";
import { STUDIES, type Study, useStudies } from "./studiesStore.ts";
import "../loads/loads.css";
import "../parts/parts.css";
import "./studies.css";

const PANELS: Readonly<Record<Study, ComponentType>> = {
  room: RoomPanel,
  moves: MovesPanel,
  jig: JigPanel,
  asBuilt: AsBuiltPanel,
  service: ServicePanel,
  together: TogetherPanel,
};

/** The studies in the sheet beside the view. */
export function StudiesSheet({ layout }: { layout: Layout }) {
  const isPhone = layout === "phone";
  return (
    <section className="loads-sheet" aria-label={t("studies.name")}>
      {!isPhone && <ToolHead open="studies" />}
      <StudiesPanel hasClose={isPhone} />
    </section>
  );
}

/** Which study, and that one; `hasClose`: nothing else closes it. */
export function StudiesPanel({ hasClose = false }: { hasClose?: boolean }) {
  const study = useStudies((look) => look.study);
  const Panel = PANELS[study];
  return (
    <div className="loads-panel studies-panel">
      <div className="studies-choice">
        <Picker
          label={t("studies.label")}
          items={STUDIES.map((value) => ({ value, label: t(`studies.names.${value}`) }))}
          value={study}
          onPick={(picked) => useStudies.setState({ study: picked as Study })}
        />
        {hasClose && (
          <button type="button" className="button plain" onClick={closeTools}>
            {t("tools.close")}
          </button>
        )}
      </div>
      <Panel />
    </div>
  );
}
