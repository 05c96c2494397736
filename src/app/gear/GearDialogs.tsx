import { Dialog } from "@base-ui/react/dialog";
import { useApp } from "../store/useApp.ts";
import { closeGearForm, useGearForm } from "./gearStore.ts";
import { UnitForm } from "./UnitForm.tsx";
import "../points/point.css";
import "../parts/parts.css";
import "../car/car.css";
import "../loads/loads.css";

/** The forms of what the running gear asks for. */
export function GearDialogs() {
  const open = useGearForm((state) => state.open);
  const document = useApp((state) => state.document);
  return (
    <Dialog.Root open={open !== null} onOpenChange={(wanted) => !wanted && closeGearForm()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog car-dialog loads-dialog">
          {open?.what === "shaft" && document?.driveshaft && <UnitForm unit="driveshaft" document={document} />}
          {open?.what === "spring" && document?.damper && <UnitForm unit="damper" document={document} />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
