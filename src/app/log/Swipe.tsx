import { useState } from "react";
import { t } from "../text/text.ts";
import type { NamedPicture } from "./CardPictures.tsx";
import { usePicture } from "./usePicture.ts";

interface SwipeProps {
  readonly before: NamedPicture;
  readonly after: NamedPicture;
}

/** Two pictures in one frame, the first left of a line and the second right of it; the line is pulled across. */
export function Swipe({ before, after }: SwipeProps) {
  const [share, setShare] = useState(50);
  const first = usePicture(before.picture);
  const second = usePicture(after.picture);
  return (
    <div className="swipe" style={{ "--swipe": `${share}%` } as React.CSSProperties}>
      <div className="card-picture">
        {second && <img src={second} alt={t("log.compared.pictureB", { state: after.state })} />}
        {first && <img className="swipe-first" src={first} alt={t("log.compared.pictureA", { state: before.state })} />}
        <span className="swipe-line" aria-hidden="true" />
        <span className="letter swipe-a" aria-hidden="true">
          A
        </span>
        <span className="letter swipe-b" aria-hidden="true">
          B
        </span>
        <input
          type="range"
          min={0}
          max={100}
          step={1}
          value={share}
          aria-label={t("log.compared.swipe")}
          aria-valuetext={t("log.compared.swipeAt", { percent: share })}
          onChange={(event) => setShare(Number(event.target.value))}
        />
      </div>
    </div>
  );
}
