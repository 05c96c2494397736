import type { ReactNode } from "react";
import type { Told } from "../store/reports.ts";
import { t } from "../text/text.ts";

interface FromToldProps<Report> {
  readonly told: Told<Report>;
  children(report: Report): ReactNode;
}

/** What the workshop told last, marked where it is from before a change, or why it tells nothing. */
export function FromTold<Report>({ told: { report, stale, error }, children }: FromToldProps<Report>) {
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
  if (!report) return <p role="status">{t("jig.working")}</p>;
  return (
    <div className="jig-told" data-stale={stale}>
      {stale && <p className="stale-line">{t("studies.outdated")}</p>}
      {children(report)}
    </div>
  );
}
