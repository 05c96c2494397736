import { Dialog } from "@base-ui/react/dialog";
import { useEffect, useState } from "react";
import { t } from "../text/text.ts";
import { DeletedProjects } from "./DeletedProjects.tsx";
import { closeDialog, useProjectDialogs } from "./dialogs.ts";
import { NewProject } from "./NewProject.tsx";
import { ProjectRow } from "./ProjectRow.tsx";
import { RoomLine } from "./RoomLine.tsx";
import type { ProjectRecord } from "./records.ts";
import { desk, useDesk } from "./theDesk.ts";
import "./projects.css";

/** All projects that this browser keeps, and what can be done with them. */
export function ProjectsDialog() {
  const shown = useProjectDialogs((state) => state.shown === "projects");
  return (
    <Dialog.Root open={shown} onOpenChange={(open) => !open && closeDialog()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog projects">
          <Dialog.Title>{t("projects.title")}</Dialog.Title>
          <Dialog.Description className="unseen">{t("projects.lead")}</Dialog.Description>
          <ProjectLists />
          <NewProject />
          <RoomLine />
          <div className="dialog-buttons">
            <Dialog.Close className="button">{t("projects.close")}</Dialog.Close>
          </div>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function ProjectLists() {
  const list = useDesk((state) => state.list);
  const openId = useDesk((state) => state.openId);
  const note = useDesk((state) => state.note);
  const [deleted, setDeleted] = useState<ProjectRecord | null>(null);
  useEffect(() => () => desk.closeNote(), []);
  const alive = list.filter(({ deleted_ms }) => deleted_ms === null);
  const remove = (record: ProjectRecord): void => {
    setDeleted(null);
    void desk.remove(record.id).then((isGone) => isGone && setDeleted(record));
  };
  return (
    <>
      <div aria-live="polite">
        {note && <p className="trouble-line">{note}</p>}
        {deleted && (
          <p className="project-deleted">
            <span>{t("projects.deleted", { title: deleted.title })}</span>
            <button
              type="button"
              className="button"
              onClick={() => {
                setDeleted(null);
                void desk.putBack(deleted.id);
              }}
            >
              {t("projects.undo")}
            </button>
          </p>
        )}
      </div>
      {alive.length === 0 ? (
        <p className="quiet project-none">{t("projects.none")}</p>
      ) : (
        <ul className="project-list">
          {alive.map((record) => (
            <ProjectRow key={record.id} record={record} isOpen={record.id === openId} onRemove={() => remove(record)} />
          ))}
        </ul>
      )}
      <DeletedProjects list={list.filter(({ deleted_ms, id }) => deleted_ms !== null && id !== deleted?.id)} />
    </>
  );
}
