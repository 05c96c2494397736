import { useMemo } from "react";
import { InputError } from "../../scene/error.ts";
import { carOf, useAtDistance } from "../loads/useAtDistance.ts";
import { Choices } from "../shell/Choices.tsx";
import type { Layout } from "../shell/useLayout.ts";
import { useApp, useLater } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { ToolHead } from "../tools/ToolPanel.tsx";
import { closeTools } from "../tools/toolsStore.ts";
import { type GearTab, useGearLook, useGearTold } from "./gearStore.ts";
import { JointsTab } from "./JointsTab.tsx";
import { fullScene } from "./live.ts";
import { RollTab } from "./RollTab.tsx";
import { ShaftTab } from "./ShaftTab.tsx";
import { SpringTab } from "./SpringTab.tsx";
import "../loads/loads.css";
import "../parts/parts.css";
import "./gear.css";

const TABS = (["shaft", "spring", "joints", "roll"] as const).map((value) => ({
  value,
  name: t(`gear.tabs.${value}`),
}));

/** The running gear in the sheet beside the view. */
export function GearSheet({ layout }: { layout: Layout }) {
  const isPhone = layout === "phone";
  return (
    <section className="loads-sheet" aria-label={t("gear.name")}>
      {!isPhone && <ToolHead open="gear" />}
      <GearPanel hasClose={isPhone} />
    </section>
  );
}

const whole = <T,>(told: T): T => told;

/** Driveshafts, springs, joints and roll over the whole travel; `hasClose`: nothing else closes it. */
export function GearPanel({ hasClose = false }: { hasClose?: boolean }) {
  const tab = useGearLook((look) => look.tab);
  return (
    <div className="loads-panel">
      <div className="loads-tabs">
        <Choices
          label={t("gear.tab")}
          options={TABS}
          value={tab}
          onChoose={(chosen: GearTab) => useGearLook.setState({ tab: chosen })}
        />
        {hasClose && (
          <button type="button" className="button plain" onClick={closeTools}>
            {t("tools.close")}
          </button>
        )}
      </div>
      <div className="loads-scroll gear-scroll">
        <Told tab={tab} />
        <p className="tool-note">{t("gear.caution")}</p>
      </div>
    </div>
  );
}

function Told({ tab }: { tab: GearTab }) {
  const { document, scene: shown } = useAtDistance(carOf, { waitsForRest: true });
  const isBehind = useApp((state) => state.scene !== shown);
  const { report, stale, error } = useLater(useGearTold, whole);
  const scene = useMemo(() => {
    try {
      return shown && document && fullScene(shown, document);
    } catch (wrong) {
      if (wrong instanceof InputError) return null;
      throw wrong;
    }
  }, [shown, document]);
  if (error) {
    return (
      <p className="trouble-line" role="alert">
        {t("words.refusal", {
          wrong: `${error.wrong.charAt(0).toUpperCase()}${error.wrong.slice(1)}.`,
          wanted: error.wanted,
        })}
      </p>
    );
  }
  if (!shown || !scene || !document) return null;
  if (!report) return <p role="status">{t("gear.working")}</p>;
  // a report of a scene with other sides is one from before
  if (report.sides.some(({ side }) => !scene.sides.includes(side))) return <p role="status">{t("gear.working")}</p>;
  return (
    <>
      {stale && <p className="stale-line">{t("gear.beforeChange")}</p>}
      {tab === "shaft" && <ShaftTab scene={shown} report={report} stale={stale || isBehind} />}
      {tab === "joints" && <JointsTab scene={scene} report={report} />}
      {tab === "roll" && <RollTab scene={shown} document={document} report={report} stale={stale || isBehind} />}
      {tab === "spring" && <SpringTab scene={shown} document={document} report={report} stale={stale || isBehind} />}
    </>
  );
}
