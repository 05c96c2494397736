import { Picker } from "../parts/Picker.tsx";
import { mountItems } from "../parts/partGroups.ts";
import { TextLine } from "../parts/TextLine.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { placingOf } from "./placing.ts";
import { useScan } from "./scanStore.ts";
import { unplacedText, wantsText } from "./words.ts";

/** What the scan is called, rides on, and which clearance it wants. */
export function PartStep() {
  const draft = useScan();
  const document = useApp((state) => state.document);
  const unit = useApp((state) => state.unit);
  if (!document) return null;
  const { id, on, role, editing } = draft;
  const { registration, refinement } = placingOf(draft);
  const rule = document.clearances.rules?.findLast(
    ({ a, b }) => role.trim() !== "" && [a, b].includes(`role:${role.trim()}`),
  );
  const wanted_mm = rule?.mm ?? document.clearances.default_mm;
  return (
    <>
      {editing === null && (
        <TextLine label={t("scans.part.name")} value={id} onChange={(next) => useScan.setState({ id: next })} />
      )}
      <Picker
        label={t("scans.part.ridesOn")}
        items={mountItems(document)}
        value={on}
        onPick={(next) => useScan.setState({ on: next })}
      />
      <TextLine label={t("scans.part.role")} value={role} onChange={(next) => useScan.setState({ role: next })} />
      <p className="quiet">{wantsText(wanted_mm, rule !== undefined, unit)}</p>
      {!registration && !refinement && <p className="scan-warning">{unplacedText(editing === null)}</p>}
    </>
  );
}
