import { useMemo } from "react";
import { casesOf } from "../../loads/cases.ts";
import type { CornerLoads } from "../../loads/forces.ts";
import { InputError } from "../../scene/error.ts";
import type { Loads } from "../../scene/loadRecords.ts";
import type { Scene } from "../../scene/scene.ts";
import { Picker } from "../parts/Picker.tsx";
import { Choices } from "../shell/Choices.tsx";
import type { Layout } from "../shell/useLayout.ts";
import type { App } from "../store/actions.ts";
import { shownDocument } from "../store/tried.ts";
import { useApp, useLater } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { ToolHead } from "../tools/ToolPanel.tsx";
import { closeTools } from "../tools/toolsStore.ts";
import { engineText } from "../words/names.ts";
import { travelText } from "../words/travel.ts";
import { ForcesTable } from "./ForcesTable.tsx";
import { openForm } from "./formsStore.ts";
import { GivenList } from "./GivenList.tsx";
import { type LoadsTab, useLoadsLook, useLoadsTold } from "./loadsStore.ts";
import { caseText } from "./partNames.ts";
import { ScreeningList } from "./ScreeningList.tsx";
import { isLack, itsLoads, type LoadsLack, loadsHere, shownCase } from "./shownLoads.ts";
import { useAtDistance } from "./useAtDistance.ts";
import { shownSide } from "./useLoadsView.ts";
import "./loads.css";

const shownOf = (state: App) => ({
  scene: state.scene,
  document: shownDocument(state),
  travel_mm: state.travel_mm,
  pose: state.pose,
  share: state.share,
});

const TABS = (["forces", "screening", "given"] as const).map((value) => ({ value, name: t(`loads.tabs.${value}`) }));

/** The loads in the sheet beside the view. */
export function LoadsSheet({ layout }: { layout: Layout }) {
  const isPhone = layout === "phone";
  return (
    <section className="loads-sheet" aria-label={t("loads.name")}>
      {!isPhone && <ToolHead open="loads" />}
      <LoadsPanel hasClose={isPhone} />
    </section>
  );
}

/** Forces of the shown state, the worst of all, the screening, and what it all stands on; `hasClose`: nothing else closes it. */
export function LoadsPanel({ hasClose = false }: { hasClose?: boolean }) {
  const tab = useLoadsLook((look) => look.tab);
  const shown = useAtDistance(shownOf, { waitsForRest: true });
  const { document, scene } = shown;
  const loads = useMemo(() => (document ? readLoads(document) : null), [document]);
  if (!scene || !document || !loads) return null;
  return (
    <div className="loads-panel">
      <div className="loads-tabs">
        <Choices
          label={t("loads.tab")}
          options={TABS}
          value={tab}
          onChoose={(chosen: LoadsTab) => useLoadsLook.setState({ tab: chosen })}
        />
        {hasClose && (
          <button type="button" className="button plain" onClick={closeTools}>
            {t("tools.close")}
          </button>
        )}
      </div>
      <div className="loads-scroll">
        {loads instanceof InputError && tab !== "given" && <Wrong error={loads} />}
        {!(loads instanceof InputError) && tab === "forces" && <Forces shown={shown} scene={scene} loads={loads} />}
        {!(loads instanceof InputError) && tab === "screening" && <Screening scene={scene} loads={loads} />}
        {tab === "given" && <GivenList document={document} />}
      </div>
      <p className="loads-caution">
        <Rich text={t("loads.caution")} />
      </p>
    </div>
  );
}

function readLoads(document: NonNullable<ReturnType<typeof shownDocument>>): Loads | InputError {
  try {
    return itsLoads(document);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}

interface OfLoads {
  readonly scene: Scene;
  readonly loads: Loads;
}

function Forces({ shown, scene, loads }: OfLoads & { readonly shown: ReturnType<typeof shownOf> }) {
  const look = useLoadsLook();
  const unit = useApp((state) => state.unit);
  const { pose, share } = shown;
  const side = shownSide(scene, look.side);
  const travel_mm = shown.travel_mm[side];
  const isUsual = loads.cases === null;
  const full = useMemo(() => ({ ...scene, loads }), [scene, loads]);
  const loadCase = shownCase(full, look.caseId);
  const cases = casesOf(full);
  const here = useMemo(
    () => loadsHere(scene, loads, side, loadCase, { travel_mm, pose, share }),
    [scene, loads, side, loadCase, travel_mm, pose, share],
  );
  return (
    <>
      <div className="loads-choice">
        {loadCase && (
          <Picker
            label={t("loads.case")}
            items={cases.map(({ id }) => ({ value: id, label: caseText(id, isUsual) }))}
            value={loadCase.id}
            onPick={(caseId) => useLoadsLook.setState({ caseId })}
          />
        )}
        {scene.sides.length === 2 && (
          <Choices
            label={t("loads.side")}
            options={scene.sides.map((value) => ({ value, name: t(`loads.sides.${value}`) }))}
            value={side}
            onChoose={(chosen) => useLoadsLook.setState({ side: chosen })}
          />
        )}
      </div>
      <p className="tool-note">
        {t("loads.where", {
          side: t(`loads.sides.${side}`),
          where: travelText(travel_mm, unit),
          engine: engineText(pose, share),
        })}
      </p>
      {isUsual && <p className="tool-note">{t("loads.usualCases")}</p>}
      {isLack(here) ? (
        <Lack lack={here} />
      ) : (
        <ForcesTable scene={scene} loads={loads} side={side} here={here as CornerLoads} />
      )}
    </>
  );
}

function Screening({ scene, loads }: OfLoads) {
  const report = useLater(useLoadsTold, (told) => told.report);
  const error = useLater(useLoadsTold, (told) => told.error);
  if (!scene.damper) return <Lack lack={{ why: "damper" }} />;
  const static_kg = scene.sides.map((side) => loads.cornerMass_kg[side]);
  const countsStatic = casesOf({ ...scene, loads }).some(({ timesStatic }) => timesStatic.some((times) => times !== 0));
  if (countsStatic && static_kg.includes(null)) return <Lack lack={{ why: "mass" }} />;
  if (error) return <Wrong error={error} />;
  if (!report) return <p role="status">{t("loads.working")}</p>;
  return <ScreeningList scene={scene} loads={loads} report={report} />;
}

/** What is missing, and the way to tell it. */
function Lack({ lack }: { lack: LoadsLack }) {
  if (lack.why === "wrong") return <Wrong error={lack.error} />;
  return (
    <div className="loads-lack" role="status">
      {lack.why === "mass" && (
        <>
          <p>{t("loads.ask.mass")}</p>
          <button type="button" className="button go" onClick={() => openForm({ what: "basics" })}>
            {t("loads.ask.massGo")}
          </button>
        </>
      )}
      {lack.why === "noCases" && (
        <>
          <p>{t("loads.ask.noCases")}</p>
          <button type="button" className="button go" onClick={() => openForm({ what: "cases" })}>
            {t("loads.ask.casesGo")}
          </button>
        </>
      )}
      {lack.why === "damper" && <p>{t("loads.ask.damper")}</p>}
      {lack.why === "noLever" && <p>{t("loads.ask.noLever")}</p>}
    </div>
  );
}

function Wrong({ error: { wrong, wanted } }: { error: InputError }) {
  return (
    <p className="trouble-line" role="alert">
      {t("loads.ask.wrong", { wrong: wrong.charAt(0).toUpperCase() + wrong.slice(1), wanted })}
    </p>
  );
}
