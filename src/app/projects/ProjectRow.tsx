import { useEffect, useRef, useState } from "react";
import { t } from "../text/text.ts";
import { closeDialog } from "./dialogs.ts";
import type { ProjectRecord } from "./records.ts";
import { desk } from "./theDesk.ts";
import { factsLine } from "./words.ts";

interface ProjectRowProps {
  readonly record: ProjectRecord;
  readonly isOpen: boolean;
  onRemove(): void;
}

export function ProjectRow({ record, isOpen, onRemove }: ProjectRowProps) {
  const [renaming, setRenaming] = useState(false);
  const renameButton = useRef<HTMLButtonElement>(null);
  const title = record.title || t("projects.untitled");
  const done = (): void => {
    setRenaming(false);
    // the field that had the focus is gone
    requestAnimationFrame(() => renameButton.current?.focus());
  };
  return (
    <li data-open={isOpen}>
      {renaming ? (
        <RenameField record={record} onDone={done} />
      ) : (
        <button
          type="button"
          className="project-open"
          aria-current={isOpen || undefined}
          onClick={() => void desk.open(record.id).then((opened) => opened && closeDialog())}
        >
          <b>{title}</b>
          {isOpen && <span className="project-mark">{t("projects.open")}</span>}
          <small>{factsLine(record)}</small>
        </button>
      )}
      <div className="project-acts">
        <button
          ref={renameButton}
          type="button"
          aria-label={t("projects.renameOf", { title })}
          onClick={() => setRenaming(!renaming)}
        >
          {t("projects.rename")}
        </button>
        <button
          type="button"
          aria-label={t("projects.duplicateOf", { title })}
          onClick={() => void desk.duplicate(record.id)}
        >
          {t("projects.duplicate")}
        </button>
        <button type="button" aria-label={t("projects.deleteOf", { title })} onClick={onRemove}>
          {t("projects.delete")}
        </button>
      </div>
    </li>
  );
}

function RenameField({ record, onDone }: { record: ProjectRecord; onDone(): void }) {
  const [title, setTitle] = useState(record.title);
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.select(), []);
  const wanted = title.trim();
  return (
    <form
      className="project-rename"
      onSubmit={(event) => {
        event.preventDefault();
        if (!wanted) return;
        void desk.rename(record.id, wanted);
        onDone();
      }}
    >
      <input
        ref={field}
        className="field"
        aria-label={t("projects.newName")}
        value={title}
        maxLength={200}
        onChange={(event) => setTitle(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== "Escape") return;
          // the dialog stays open
          event.preventDefault();
          event.stopPropagation();
          onDone();
        }}
      />
      <button type="submit" className="button" disabled={!wanted}>
        {t("projects.keepName")}
      </button>
    </form>
  );
}
