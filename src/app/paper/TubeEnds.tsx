import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { type TubeEnd, tubeEndJoints } from "../../scene/tubeEnds.ts";
import { partText } from "../loads/partNames.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import { TubeEndForm } from "./TubeEndForm.tsx";

/** How the tubes of links and wishbones end, joint by joint, to be told or changed. */
export function TubeEnds({ document }: { document: SceneDocument }) {
  const [open, setOpen] = useState<string | null>(null);
  const unit = useApp((state) => state.unit);
  const joints = tubeEndJoints(document);
  if (joints.length === 0) return null;
  const told = (joint: string): string => {
    const end = document.tubeEnds?.find((one) => one.joint === joint);
    return end ? endText(end, (mm) => lengthText(mm, unit)) : t("paper.ends.untold");
  };
  return (
    <section className="paper-ends" aria-label={t("paper.ends.name")}>
      <h4>{t("paper.ends.name")}</h4>
      <p className="quiet">{t("paper.ends.lead")}</p>
      <ul>
        {joints.map((joint) => (
          <li key={joint}>
            <button type="button" aria-expanded={open === joint} onClick={() => setOpen(open === joint ? null : joint)}>
              <b>{partText(joint, document)}</b> <span className="quiet">{told(joint)}</span>
            </button>
            {open === joint && <TubeEndForm joint={joint} document={document} onDone={() => setOpen(null)} />}
          </li>
        ))}
      </ul>
    </section>
  );
}

function endText(end: TubeEnd, length: (mm: number) => string): string {
  switch (end.kind) {
    case "rod end": {
      const sizes = { thread: end.thread_mm, pitch: end.pitch_mm, eye: length(end.eye_mm) };
      return end.hand === "left" ? t("paper.ends.told.rodEndLeft", sizes) : t("paper.ends.told.rodEnd", sizes);
    }
    case "sleeve":
      return t("paper.ends.told.sleeve", { outside: length(end.outside_mm) });
    case "square":
      return t("paper.ends.told.square", { short: length(end.short_mm) });
  }
}
