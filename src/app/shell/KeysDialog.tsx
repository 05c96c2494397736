import { Dialog } from "@base-ui/react/dialog";
import { t } from "../text/text.ts";
import { KEY_LIST, useKeyList } from "./keys.ts";

/** The keys, asked for with ? or from the scene's menu. */
export function KeysDialog() {
  const shown = useKeyList((state) => state.shown);
  return (
    <Dialog.Root open={shown} onOpenChange={(open) => useKeyList.setState({ shown: open })}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog key-list">
          <Dialog.Title>{t("shell.keys.title")}</Dialog.Title>
          <Dialog.Description className="lead">{t("shell.keys.lead")}</Dialog.Description>
          <div className="key-groups">
            {KEY_LIST.map(({ about, keys }) => (
              <section key={about}>
                <h3>{about}</h3>
                <dl>
                  {keys.map(({ press, does }) => (
                    <div key={does}>
                      <dt>
                        {press.map((name) => (
                          <kbd key={name}>{name}</kbd>
                        ))}
                      </dt>
                      <dd>{does}</dd>
                    </div>
                  ))}
                </dl>
              </section>
            ))}
          </div>
          <div className="dialog-buttons">
            <Dialog.Close className="button">{t("shell.keys.close")}</Dialog.Close>
          </div>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
