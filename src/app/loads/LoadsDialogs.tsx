import { Dialog } from "@base-ui/react/dialog";
import { useApp } from "../store/useApp.ts";
import { BasicsForm } from "./BasicsForm.tsx";
import { closeForm, useLoadsForm } from "./formsStore.ts";
import { RecordsForm } from "./RecordsForm.tsx";
import "../points/point.css";
import "../parts/parts.css";
import "../car/car.css";
import "./loads.css";

/** The forms of the load records. */
export function LoadsDialogs() {
  const open = useLoadsForm((state) => state.open);
  const document = useApp((state) => state.document);
  return (
    <Dialog.Root open={open !== null} onOpenChange={(wanted) => !wanted && closeForm()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog car-dialog loads-dialog">
          {open && document && open.what === "basics" && <BasicsForm document={document} />}
          {open && document && open.what !== "basics" && (
            <RecordsForm list={open.what} {...(open.of ? { of: open.of } : {})} document={document} />
          )}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
