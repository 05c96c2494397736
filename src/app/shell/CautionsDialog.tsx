import { Dialog } from "@base-ui/react/dialog";
import { app, useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { useCautions } from "./cautions.ts";

const CAUTIONS = ["numbers", "byHand", "strength", "rules"] as const;

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
          <Dialog.Title>{t("shell.cautions.title")}</Dialog.Title>
          <Dialog.Description className="lead">{t("shell.cautions.lead")}</Dialog.Description>
          <ul>
            {CAUTIONS.map((caution) => (
              <li key={caution}>
                <Rich text={t(`shell.cautions.${caution}`)} />
              </li>
            ))}
          </ul>
          <div className="dialog-buttons">
            <Dialog.Close className="button go">{t("shell.cautions.read")}</Dialog.Close>
          </div>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
