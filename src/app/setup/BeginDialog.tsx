import { Dialog } from "@base-ui/react/dialog";
import { useMemo, useState } from "react";
import { resolveScene } from "../../scene/resolve.ts";
import { beginSetup } from "../../scene/setup/setup.ts";
import { CORNER_KINDS, type CornerKind } from "../../scene/setup/setupDocument.ts";
import { t } from "../text/text.ts";
import { beginBlank, beginGuided } from "./begin.ts";
import { PlacePicture } from "./pictures/PlacePicture.tsx";
import { useSetup } from "./setupStore.ts";
import "./setup.css";

/** Which kind of corner, and whether it is asked for or laid out to be filled in. */
export function BeginDialog() {
  const open = useSetup((look) => look.beginning);
  return (
    <Dialog.Root open={open} onOpenChange={(wanted) => !wanted && useSetup.setState({ beginning: false })}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog begin">
          <KindChoice />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function KindChoice() {
  const [kind, setKind] = useState<CornerKind>("hub-and-arm");
  return (
    <>
      <Dialog.Title>{t("setup.begin.title")}</Dialog.Title>
      <Dialog.Description className="lead">{t("setup.begin.lead")}</Dialog.Description>
      <fieldset className="begin-kinds" aria-label={t("setup.begin.lead")}>
        {CORNER_KINDS.map((one) => (
          <button
            key={one}
            type="button"
            className="begin-kind"
            aria-pressed={one === kind}
            onClick={() => setKind(one)}
          >
            <KindPicture kind={one} />
            <b>{t(`setup.kinds.${one}.title`)}</b>
            <small>{t(`setup.kinds.${one}.about`)}</small>
          </button>
        ))}
      </fieldset>
      <div className="begin-ways">
        <p>
          <button type="button" className="button go" onClick={() => void beginGuided(kind)}>
            {t("setup.begin.guided")}
          </button>
          <small>{t("setup.begin.guidedSays")}</small>
        </p>
        <p>
          <button type="button" className="button" onClick={() => void beginBlank(kind)}>
            {t("setup.begin.blank")}
          </button>
          <small>{t("setup.begin.blankSays")}</small>
        </p>
      </div>
      <div className="dialog-buttons">
        <Dialog.Close className="button">{t("shell.leave")}</Dialog.Close>
      </div>
    </>
  );
}

function KindPicture({ kind }: { kind: CornerKind }) {
  const scene = useMemo(() => resolveScene(beginSetup(kind)), [kind]);
  return <PlacePicture scene={scene} side="left" at={null} datum={null} direction={null} label="" />;
}
