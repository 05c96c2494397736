import { Choices } from "../../shell/Choices.tsx";
import { useApp } from "../../store/useApp.ts";
import { t } from "../../text/text.ts";
import { DIRECTIONS } from "../usePointMove.ts";
import { toggleFree, toggleKind, useDrag } from "./dragStore.ts";
import type { SnapKind } from "./snap.ts";

const KINDS: readonly SnapKind[] = ["points", "mirror", "parts"];

const GRID_NAMES = { mm: ["1", "5", "10"], in: ["1⁄16", "¼", "½"] } as const;

/** In which directions a dragged point may go, and what holds it on the way. */
export function DragBar() {
  const isHeld = useApp((state) => state.place === "points" && state.heldPoint !== null);
  const unit = useApp((state) => state.unit);
  const free = useDrag((drag) => drag.free);
  const kinds = useDrag((drag) => drag.kinds);
  const grid = useDrag((drag) => drag.grid);
  if (!isHeld) return null;
  const names: readonly string[] = [t("points.drag.off"), ...GRID_NAMES[unit]];
  return (
    <div className="drag-bar">
      <div className="dock-group">
        <span className="dock-label">{t("points.drag.go")}</span>
        <fieldset className="choices" aria-label={t("points.drag.go")}>
          {DIRECTIONS.map((direction) => (
            <button
              key={direction}
              type="button"
              aria-pressed={free.has(direction)}
              aria-keyshortcuts={direction.charAt(0).toUpperCase()}
              onClick={() => toggleFree(direction)}
            >
              {t(`points.directions.${direction}`)}
            </button>
          ))}
        </fieldset>
      </div>
      <div className="dock-group">
        <span className="dock-label">{t("points.drag.snaps")}</span>
        <fieldset className="choices" aria-label={t("points.drag.snaps")}>
          {KINDS.map((value) => (
            <button key={value} type="button" aria-pressed={kinds.has(value)} onClick={() => toggleKind(value)}>
              {t(`points.drag.kinds.${value}`)}
            </button>
          ))}
        </fieldset>
      </div>
      <div className="dock-group">
        <span className="dock-label">{t("points.drag.whole", { unit })}</span>
        <Choices
          label={t("points.drag.wholeLabel")}
          options={names.map((name) => ({ value: name, name }))}
          value={names[grid] ?? null}
          onChoose={(name) => useDrag.setState({ grid: names.indexOf(name) })}
        />
      </div>
    </div>
  );
}
