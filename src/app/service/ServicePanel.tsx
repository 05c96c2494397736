import { useMemo } from "react";
import { useApp } from "../store/useApp.ts";
import { StudyLine, useIsOutdated } from "../studies/StudyLine.tsx";
import { t } from "../text/text.ts";
import { JobCard } from "./JobCard.tsx";
import { openServiceForm } from "./serviceForms.ts";
import { serviceQuestion, serviceStudy } from "./serviceStore.ts";
import "../corner/ledger.css";
import "../loads/loads.css";
import "./service.css";

/** Service jobs, each a card with its steps and tools, what stops it and what would free it. */
export function ServicePanel() {
  const document = useApp((state) => state.document);
  const question = useMemo(() => document && serviceQuestion(document), [document]);
  const told = serviceStudy.use((state) => state.told);
  const isOutdated = useIsOutdated(serviceStudy, question);
  if (!document) return null;
  const jobs = document.service?.jobs ?? [];
  return (
    <div className="loads-scroll service-panel">
      <p className="tool-note">{t("service.lead")}</p>
      {jobs.length === 0 ? (
        <p>{t("service.none")}</p>
      ) : (
        <StudyLine study={serviceStudy} question={question} go={t("service.go")} again={t("service.again")} />
      )}
      {jobs.length > 0 && (
        <ul className="service-jobs" aria-label={t("service.jobs")} data-stale={isOutdated}>
          {jobs.map((job) => (
            <JobCard
              key={job.id}
              job={job}
              document={document}
              reports={told?.result.jobs.filter((report) => report.job === job.id) ?? []}
              isOutdated={isOutdated}
            />
          ))}
        </ul>
      )}
      <div className="service-add">
        {(["reach", "out"] as const).map((kind) => (
          <button key={kind} type="button" className="button" onClick={() => openServiceForm({ kind, job: null })}>
            {t(`service.add.${kind}`)}
          </button>
        ))}
      </div>
      <p className="tool-note">{t("service.caution")}</p>
    </div>
  );
}
