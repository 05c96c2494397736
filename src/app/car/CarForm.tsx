import type { ReactNode } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { editParts } from "../parts/partEdits.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { EditForm } from "../shell/EditForm.tsx";
import { t } from "../text/text.ts";
import { closeCar } from "./carStore.ts";

interface CarFormProps {
  readonly title: string;
  readonly lead: string;
  readonly step: string;
  /** Why it cannot be kept yet; null: it can. */
  readonly wait?: string | null;
  readonly children: ReactNode;
  readonly extra?: ReactNode;
  edit(document: SceneDocument): SceneDocument;
  onKept?(): void;
}

/** One sheet of the car's settings: kept as one step, or left as it was. */
export function CarForm({ title, lead, step, wait = null, children, extra, edit, onKept }: CarFormProps) {
  const isNonsense = usePointsLook((look) => look.troubled.size > 0);
  return (
    <EditForm
      title={title}
      lead={lead}
      go={t("car.keep")}
      isBarred={isNonsense || wait !== null}
      wait={wait}
      extra={extra}
      onGo={() => editParts(step, edit)}
      onDone={() => {
        closeCar();
        onKept?.();
      }}
    >
      {children}
    </EditForm>
  );
}
