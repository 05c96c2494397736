import { lazy, Suspense } from "react";
import { Guard } from "../shell/Guard.tsx";
import { closeScan } from "./scanActions.ts";
import { useScan } from "./scanStore.ts";

const ScanDialog = lazy(() => import("./ScanDialog.tsx").then((part) => ({ default: part.ScanDialog })));

/** The dialog's place in the page: its program is fetched when it is opened. */
export function ScanPlace() {
  const isOpen = useScan((draft) => draft.isOpen);
  return (
    <Guard onClose={closeScan}>
      <Suspense fallback={null}>{isOpen && <ScanDialog />}</Suspense>
    </Guard>
  );
}
