import type { SceneDocument } from "../../scene/document.ts";
import { useApp } from "../store/useApp.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { wantedText } from "../words/number.ts";
import { TextLine } from "./TextLine.tsx";

interface RoleFieldProps {
  readonly document: SceneDocument;
  readonly value: string;
  onChange(role: string): void;
}

const ROLE = "role:";

/** The role of a part, and the gap that rules want for it: a role that no rule names would go unnoticed otherwise. */
export function RoleField({ document, value, onChange }: RoleFieldProps) {
  const unit = useApp((state) => state.unit);
  return (
    <>
      <TextLine label={t("parts.role.label")} value={value} onChange={onChange} />
      {value.trim() !== "" && (
        <p className="fine quiet" role="status">
          {roleText(document, value.trim(), (mm) => wantedText(mm, unit))}
        </p>
      )}
    </>
  );
}

function roleText({ clearances }: SceneDocument, role: string, lengthOf: (mm: number) => string): string {
  const { rules = [], default_mm } = clearances;
  const rule = rules.findLast(({ a, b }) => [a, b].includes(`${ROLE}${role}`));
  if (rule) return t("parts.role.ruled", { wanted: lengthOf(rule.mm) });
  const named = rules.flatMap(({ a, b }) => [a, b]).filter((term) => term.startsWith(ROLE));
  const wanted = lengthOf(default_mm);
  if (named.length === 0) return t("parts.role.unruled", { wanted });
  const roles = listText(new Set(named.map((term) => term.slice(ROLE.length))), "disjunction");
  return t("parts.role.otherwise", { wanted, roles });
}
