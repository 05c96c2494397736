import { Dialog } from "@base-ui/react/dialog";
import { useApp } from "../store/useApp.ts";
import { AllowancesForm } from "./AllowancesForm.tsx";
import { closeCar, useCar } from "./carStore.ts";
import { DatumsForm } from "./DatumsForm.tsx";
import { GapsForm } from "./GapsForm.tsx";
import { MembersForm } from "./MembersForm.tsx";
import { PointForm } from "./PointForm.tsx";
import { RockForm } from "./RockForm.tsx";
import { TravelForm } from "./TravelForm.tsx";
import "../points/point.css";
import "../parts/parts.css";
import "./car.css";

const FORMS = {
  members: MembersForm,
  travel: TravelForm,
  gaps: GapsForm,
  rock: RockForm,
  allow: AllowancesForm,
  datums: DatumsForm,
  point: PointForm,
} as const;

/** The sheets of what is no part. */
export function CarDialogs() {
  const open = useCar((state) => state.open);
  const document = useApp((state) => state.document);
  const Form = open && FORMS[open];
  return (
    <Dialog.Root open={open !== null} onOpenChange={(wanted) => !wanted && closeCar()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog car-dialog">{Form && document && <Form document={document} />}</Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
