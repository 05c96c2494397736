import { t } from "../text/text.ts";
import type { ProjectRecord } from "./records.ts";
import { desk } from "./theDesk.ts";
import { deletedLine } from "./words.ts";

/** Deleted projects that can still be put back. */
export function DeletedProjects({ list }: { list: readonly ProjectRecord[] }) {
  if (list.length === 0) return null;
  return (
    <details className="project-gone">
      <summary>{t("projects.gone", { count: list.length })}</summary>
      <ul className="project-list">
        {list.map((record) => (
          <li key={record.id}>
            <div className="project-open">
              <b>{record.title || t("projects.untitled")}</b>
              <small>{deletedLine(record)}</small>
            </div>
            <div className="project-acts">
              <button
                type="button"
                aria-label={t("projects.putBackOf", { title: record.title })}
                onClick={() => void desk.putBack(record.id)}
              >
                {t("projects.putBack")}
              </button>
              <button
                type="button"
                aria-label={t("projects.deleteForGoodOf", { title: record.title })}
                onClick={() => void desk.removeForGood(record.id)}
              >
                {t("projects.deleteForGood")}
              </button>
            </div>
          </li>
        ))}
      </ul>
    </details>
  );
}
