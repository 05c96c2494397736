import type { ProjectRecord } from "./records.ts";
import { desk } from "./theDesk.ts";
import { deletedLine } from "./words.ts";

/** Deleted projects that can still be put back. */
export function DeletedProjects({ list }: { list: readonly ProjectRecord[] }) {
  if (list.length === 0) return null;
  return (
    <details className="project-gone">
      <summary>Deleted ({list.length})</summary>
      <ul className="project-list">
        {list.map((record) => (
          <li key={record.id}>
            <div className="project-open">
              <b>{record.title || "Untitled"}</b>
              <small>{deletedLine(record)}</small>
            </div>
            <div className="project-acts">
              <button
                type="button"
                aria-label={`Put ${record.title} back`}
                onClick={() => void desk.putBack(record.id)}
              >
                Put back
              </button>
              <button
                type="button"
                aria-label={`Delete ${record.title} for good`}
                onClick={() => void desk.removeForGood(record.id)}
              >
                Delete for good
              </button>
            </div>
          </li>
        ))}
      </ul>
    </details>
  );
}
