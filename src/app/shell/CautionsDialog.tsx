import { Dialog } from "@base-ui/react/dialog";
import { app, useApp } from "../store/useApp.ts";
import { useCautions } from "./cautions.ts";

/** Shown once before the first use, and whenever it is asked for. */
export function CautionsDialog() {
  const unread = useApp((state) => state.ready && !state.cautionsRead);
  const asked = useCautions((state) => state.asked);
  const close = (): void => {
    app.getState().readCautions();
    useCautions.setState({ asked: false });
  };
  return (
    <Dialog.Root open={unread || asked} onOpenChange={(open) => !open && close()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog cautions">
          <Dialog.Title>Before you cut steel</Dialog.Title>
          <Dialog.Description className="lead">
            Elbowroom looks at shape and movement only, with parts that never bend.
          </Dialog.Description>
          <ul>
            <li>
              <b>It is only as true as the numbers you give it.</b> Measure again before you weld. Rubber bushes, engine
              mounts and frames give; a gap on the screen can be a touch on the road.
            </li>
            <li>
              <b>Prove it by hand.</b> Spring out, car on stands and never on a jack alone, wheel taken from droop to
              bump, with hoses, cables and boots in place.
            </li>
            <li>
              <b>Clear does not mean strong.</b> It does not judge arms, brackets, bolts, welds or brakes. Have a
              competent engineer look at them. Do not weld, heat or shorten forged or cast arms.
            </li>
            <li>
              <b>Rules differ by country and year.</b> Ask your local inspector or certifier before cutting: local codes
              come before anything shown here.
            </li>
          </ul>
          <div className="dialog-buttons">
            <Dialog.Close className="button go">I will check on the car</Dialog.Close>
          </div>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
