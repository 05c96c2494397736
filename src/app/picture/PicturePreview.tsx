import { type CSSProperties, useEffect, useState } from "react";
import { InputError } from "../../scene/error.ts";
import type { PictureRequest } from "../../work/pictureRoom.ts";
import { askPicture } from "../files/fileRoom.ts";
import { isAbort } from "../store/engine.ts";
import { app } from "../store/useApp.ts";
import { t } from "../text/text.ts";

interface Shown {
  readonly address: string | null;
  /** What is shown is from before a change. */
  readonly isStale: boolean;
  readonly trouble: string | null;
  /** How many lengths and gaps lie outside it. */
  readonly outside: number;
}

/** The picture as it will be, with fewer dots; drawn anew when what is asked changes. */
export function PicturePreview({ request }: { request: PictureRequest }) {
  const [shown, setShown] = useState<Shown>({ address: null, isStale: true, trouble: null, outside: 0 });
  const name = JSON.stringify([request.asked, request.words]);
  const { document } = request;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a request is another object each time; its name and its document say what it asks
  useEffect(() => {
    const job = askPicture(request, app.getState().files);
    setShown((last) => ({ ...last, isStale: true }));
    job.done.then(
      ({ file, outside }) => {
        const address = URL.createObjectURL(new Blob([file], { type: "image/png" }));
        setShown({ address, isStale: false, trouble: null, outside });
      },
      (error: unknown) => {
        if (isAbort(error)) return;
        setShown((last) => ({ ...last, isStale: true, trouble: troubleOf(error) }));
      },
    );
    return () => job.stop();
  }, [name, document]);
  const { address } = shown;
  useEffect(() => () => (address === null ? undefined : URL.revokeObjectURL(address)), [address]);
  const { width_px, height_px } = request.asked;
  return (
    <div className="picture-stage">
      <div
        className="picture-preview"
        aria-busy={shown.isStale && shown.trouble === null}
        style={{ "--aspect": width_px / height_px } as CSSProperties}
      >
        {address && (
          <img src={address} alt={t("picture.alt", { view: request.words.view, state: request.words.state })} />
        )}
        {!address && !shown.trouble && <p role="status">{t("picture.drawing")}</p>}
        {shown.trouble && (
          <p className="trouble-line" role="alert">
            {shown.trouble}
          </p>
        )}
      </div>
      {shown.outside > 0 && <p className="quiet">{t("picture.outside", { count: shown.outside })}</p>}
    </div>
  );
}

function troubleOf(error: unknown): string {
  if (error instanceof InputError) return t("words.refusal", { wrong: `${error.wrong}.`, wanted: error.wanted });
  return error instanceof Error ? error.message : String(error);
}
