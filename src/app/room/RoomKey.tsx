import { useLayoutEffect, useRef } from "react";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { wantedText } from "../words/number.ts";
import { drawMark } from "./drawSlice.ts";
import { useRoom } from "./roomStore.ts";
import { FIRST_ROOM, MARKS, roomSteps } from "./roomTold.ts";

const SIZE = 22;

/** What the marks of slices and view mean, and whether the view shows refused places. */
export function RoomKey({ marginUpTo_mm }: { marginUpTo_mm: number }) {
  const unit = useApp((state) => state.unit);
  const showsRefused = useRoom((look) => look.showsRefused);
  return (
    <>
      <label className="room-check">
        <input
          type="checkbox"
          checked={showsRefused}
          onChange={(event) => useRoom.setState({ showsRefused: event.target.checked })}
        />
        <span>{t("room.key.refused")}</span>
      </label>
      <details className="room-details">
        <summary>{t("room.key.title")}</summary>
        <ul className="room-key">
          {roomSteps(marginUpTo_mm).map((from_mm, step) => (
            <li key={from_mm}>
              <MarkPicture mark={FIRST_ROOM + step} />
              {t("room.key.room", { from: wantedText(from_mm, unit) })}
            </li>
          ))}
          {(["close", "limit", "cannot", "unasked"] as const).map((kind) => (
            <li key={kind}>
              <MarkPicture mark={MARKS.indexOf(kind)} />
              {t(`room.key.${kind}`)}
            </li>
          ))}
          <li>
            <svg width={SIZE} height={SIZE} aria-hidden="true">
              <circle className="room-now" cx={SIZE / 2} cy={SIZE / 2} r="7" />
            </svg>
            {t("room.key.now")}
          </li>
          <li>
            <svg width={SIZE} height={SIZE} aria-hidden="true">
              <circle className="room-at" cx={SIZE / 2} cy={SIZE / 2} r="8" />
            </svg>
            {t("room.key.place")}
          </li>
        </ul>
      </details>
    </>
  );
}

/** One mark, as slices have it. */
export function MarkPicture({ mark }: { mark: number }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const theme = useApp((state) => state.theme);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the theme tells when its colours are others
  useLayoutEffect(() => {
    const frame = requestAnimationFrame(() => {
      const element = canvas.current;
      const context = element?.getContext("2d");
      if (!element || !context) return;
      const ratio = window.devicePixelRatio || 1;
      element.width = SIZE * ratio;
      element.height = SIZE * ratio;
      context.setTransform(ratio, 0, 0, ratio, 0, 0);
      const style = getComputedStyle(element);
      drawMark(context, mark, SIZE / 2, SIZE / 2, SIZE, true, (token) => style.getPropertyValue(token));
    });
    return () => cancelAnimationFrame(frame);
  }, [mark, theme]);
  return (
    <span className="room-mark" aria-hidden="true">
      <canvas ref={canvas} style={{ width: SIZE, height: SIZE }} />
    </span>
  );
}
