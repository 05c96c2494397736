import { TextLine } from "../parts/PartDialogs.tsx";
import { Picker } from "../parts/Picker.tsx";
import { mountItems } from "../parts/partGroups.ts";
import { useApp } from "../store/useApp.ts";
import { wantedText } from "../words/number.ts";
import { placingOf } from "./placing.ts";
import { useScan } from "./scanStore.ts";

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
      {editing === null && <TextLine label="Name" value={id} onChange={(next) => useScan.setState({ id: next })} />}
      <Picker
        label="Rides on"
        items={mountItems(document)}
        value={on}
        onPick={(next) => useScan.setState({ on: next })}
      />
      <TextLine
        label="Role, which clearance rules may name (exhaust, frame); may be left empty"
        value={role}
        onChange={(next) => useScan.setState({ role: next })}
      />
      <p className="quiet">
        Wants {wantedText(wanted_mm, unit)} to other parts
        {rule ? ", by the rule for its role" : ", as parts without a rule do"}. A scan is no finer than its scanner:
        give it more where you doubt it.
      </p>
      {!registration && !refinement && (
        <p className="scan-warning">
          {editing === null
            ? "It was not placed: it stands where its file has it, from the car's axle line, centre plane and ground."
            : "It stays where it was."}
        </p>
      )}
    </>
  );
}
