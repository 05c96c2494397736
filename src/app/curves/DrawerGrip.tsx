import { type PointerEvent, useRef } from "react";
import { t } from "../text/text.ts";
import { DRAWER_REACH, setDrawerHeight, useCurveChoice } from "./useCurveChoice.ts";

const KEY_STEP = 16;

/** The drawer's edge: drag it, or move it with ↑ and ↓, to give the curves more or less room. */
export function DrawerGrip() {
  const height = useCurveChoice((state) => state.height);
  const from = useRef<{ y: number; height: number } | null>(null);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a window splitter is a focusable separator, which no element is
    <div
      className="drawer-grip"
      role="separator"
      tabIndex={0}
      aria-label={t("curves.grip")}
      aria-orientation="horizontal"
      aria-valuenow={height}
      aria-valuemin={DRAWER_REACH[0]}
      aria-valuemax={DRAWER_REACH[1]}
      onPointerDown={(event: PointerEvent<HTMLElement>) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        from.current = { y: event.clientY, height };
      }}
      onPointerMove={(event) => {
        if (from.current) setDrawerHeight(from.current.height + from.current.y - event.clientY);
      }}
      onPointerUp={() => {
        from.current = null;
      }}
      onPointerCancel={() => {
        from.current = null;
      }}
      onKeyDown={(event) => {
        if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
        event.preventDefault();
        setDrawerHeight(height + (event.key === "ArrowUp" ? KEY_STEP : -KEY_STEP));
      }}
    />
  );
}
