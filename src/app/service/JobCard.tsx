import { useId } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import type { Side } from "../../scene/scene.ts";
import type { JobDocument } from "../../scene/serviceRecords.ts";
import { STATES } from "../../studies/service/car.ts";
import type { OutState } from "../../studies/service/out.ts";
import type { ToolReach } from "../../studies/service/reach.ts";
import type { JobReport } from "../../studies/service/service.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { PathSlider } from "./PathSlider.tsx";
import { openServiceForm, removeJob } from "./serviceForms.ts";
import { chooseState, openJob, showHere, shownReport, useServiceLook } from "./serviceStore.ts";
import { capital, outFreeingTexts, outStateText, stepTexts, toolFreeingTexts, toolStateText } from "./serviceText.ts";
import { lookCloser } from "./useServiceView.ts";

interface JobCardProps {
  readonly job: JobDocument;
  readonly document: SceneDocument;
  /** Of each side that was tried; none: it was not tried yet. */
  readonly reports: readonly JobReport[];
  /** What was told is of the car before a change. */
  readonly isOutdated: boolean;
}

const SHOWN = STATES.map((value) => ({ value, name: t(`service.states.${value}`) }));

export function JobCard({ job, document, reports, isOutdated }: JobCardProps) {
  const isOpen = useServiceLook((look) => look.job === job.id);
  return (
    <li className="service-job" data-open={isOpen}>
      <button
        type="button"
        className="service-head"
        aria-expanded={isOpen}
        onClick={() => openJob(isOpen ? null : job.id)}
      >
        <b>{capital(job.id)}</b>
        <Chips reports={reports} />
      </button>
      {isOpen && <Opened job={job} document={document} reports={reports} isOutdated={isOutdated} />}
    </li>
  );
}

function Chips({ reports }: { reports: readonly JobReport[] }) {
  if (reports.length === 0) return <span className="quiet fine">{t("service.chips.untried")}</span>;
  return (
    <span className="service-chips">
      {STATES.map((state) => {
        const fits = reports.every(({ fitsAt }) => fitsAt.includes(state));
        return (
          <span key={state} className="service-chip" data-fits={fits}>
            <GapMark kind={fits ? "clear" : "clash"} size={19} />
            {t(`service.chips.${fits ? "fits" : "stops"}`, { state: t(`service.states.${state}`) })}
          </span>
        );
      })}
    </span>
  );
}

function Opened({ job, document, reports, isOutdated }: JobCardProps) {
  const unit = useApp((state) => state.unit);
  const look = useServiceLook();
  const title = useId();
  const report = shownReport(reports, look);
  const sides = reports.map(({ side }) => ({ value: side, name: capital(t(`words.sides.${side}`)) }));
  return (
    <div className="service-card">
      <h4 id={title}>{t("service.steps.title")}</h4>
      <ol aria-labelledby={title}>
        {stepTexts(job, { document, unit }).map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ol>
      {report && (
        <div className="service-found" data-stale={isOutdated}>
          <div className="service-choices">
            <Choices label={t("service.stateChoice")} options={SHOWN} value={look.state} onChoose={chooseState} />
            {sides.length > 1 && (
              <Choices
                label={t("service.sideChoice")}
                options={sides}
                value={report.side}
                onChoose={(side: Side) => {
                  useServiceLook.setState({ side, along: 1 });
                  showHere();
                }}
              />
            )}
          </div>
          {report.kind === "reach" ? (
            <Tools reaches={report.tools} document={document} />
          ) : (
            <WayOut state={report.states.find(({ state }) => state === look.state)!} document={document} />
          )}
        </div>
      )}
      <div className="service-buttons">
        {report && !isOutdated && (
          <button type="button" className="button" onClick={lookCloser}>
            {t("service.look")}
          </button>
        )}
        <button type="button" className="button" onClick={() => openServiceForm({ kind: job.kind, job: job.id })}>
          {t("service.change")}
        </button>
        <button type="button" className="button" onClick={() => removeJob(job.id)}>
          {t("service.remove")}
        </button>
      </div>
    </div>
  );
}

/** Each tool with whether it fits; the pressed one is shown in the view. */
function Tools({ reaches, document }: { reaches: readonly ToolReach[]; document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const { state, tool: chosen } = useServiceLook();
  return reaches.map((reach, i) => {
    const found = reach.states.find((each) => each.state === state);
    const tool = document.service?.tools?.find(({ id }) => id === reach.tool);
    if (!found || !tool) return null;
    const isShown = chosen === i;
    return (
      <div key={reach.tool} className="service-tool" data-shown={isShown}>
        <button
          type="button"
          className="service-line"
          aria-pressed={isShown}
          onClick={() => useServiceLook.setState({ tool: i, along: 1 })}
        >
          <GapMark kind={found.fits ? "clear" : "clash"} size={19} />
          <span>{toolStateText(tool, found, { document, unit })}</span>
        </button>
        {isShown && found.swing && found.swing.widest_deg > 0 && <PathSlider swing={found.swing} steps={[]} />}
        {reach.free && <Freeing texts={toolFreeingTexts(reach, { document, unit })} />}
      </div>
    );
  });
}

function WayOut({ state, document }: { state: OutState; document: SceneDocument }) {
  const unit = useApp((shown) => shown.unit);
  const { walk, fits, free } = state;
  return (
    <div className="service-tool">
      <p className="service-line">
        <GapMark kind={fits ? "clear" : "clash"} size={19} />
        <span>{outStateText(state, { document, unit })}</span>
      </p>
      {walk.steps.length > 0 && <PathSlider swing={null} steps={walk.steps} />}
      {!fits && free && <Freeing texts={outFreeingTexts(free, { document, unit })} />}
      {walk.leftOut.length > 0 && (
        <p className="tool-note">{t("service.out.leftOut", { list: walk.leftOut.join(", ") })}</p>
      )}
    </div>
  );
}

function Freeing({ texts }: { texts: readonly string[] }) {
  const title = useId();
  return (
    <div className="service-free">
      <h4 id={title}>{t("service.free.title")}</h4>
      <ul aria-labelledby={title}>
        {(texts.length > 0 ? texts : [t("service.free.nothing")]).map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </div>
  );
}
