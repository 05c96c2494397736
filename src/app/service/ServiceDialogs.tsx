import { Dialog } from "@base-ui/react/dialog";
import { useApp } from "../store/useApp.ts";
import { OutForm } from "./OutForm.tsx";
import { ReachForm } from "./ReachForm.tsx";
import { closeServiceForm, useServiceForm } from "./serviceForms.ts";
import "../points/point.css";
import "../parts/parts.css";
import "../car/car.css";
import "../loads/loads.css";
import "./service.css";

/** The forms of service jobs. */
export function ServiceDialogs() {
  const open = useServiceForm((state) => state.open);
  const document = useApp((state) => state.document);
  return (
    <Dialog.Root open={open !== null} onOpenChange={(wanted) => !wanted && closeServiceForm()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog car-dialog loads-dialog">
          {document && open?.kind === "reach" && <ReachForm document={document} before={open.job} />}
          {document && open?.kind === "out" && <OutForm document={document} before={open.job} />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
