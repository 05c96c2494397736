import { Choices } from "../../shell/Choices.tsx";
import { useApp } from "../../store/useApp.ts";
import { DIRECTIONS } from "../usePointMove.ts";
import { toggleFree, toggleKind, useDrag } from "./dragStore.ts";
import type { SnapKind } from "./snap.ts";

const KINDS: readonly { readonly value: SnapKind; readonly name: string }[] = [
  { value: "points", name: "points" },
  { value: "mirror", name: "mirror" },
  { value: "parts", name: "parts" },
];

const GRID_NAMES = { mm: ["off", "1", "5", "10"], in: ["off", "1⁄16", "¼", "½"] } as const;

/** In which directions a dragged point may go, and what holds it on the way. */
export function DragBar() {
  const isHeld = useApp((state) => state.place === "points" && state.heldPoint !== null);
  const unit = useApp((state) => state.unit);
  const free = useDrag((drag) => drag.free);
  const kinds = useDrag((drag) => drag.kinds);
  const grid = useDrag((drag) => drag.grid);
  if (!isHeld) return null;
  const names = GRID_NAMES[unit];
  return (
    <div className="drag-bar">
      <div className="dock-group">
        <span className="dock-label">It may go</span>
        <fieldset className="choices" aria-label="It may go">
          {DIRECTIONS.map((direction) => (
            <button
              key={direction}
              type="button"
              aria-pressed={free.has(direction)}
              aria-keyshortcuts={direction.charAt(0).toUpperCase()}
              onClick={() => toggleFree(direction)}
            >
              {direction}
            </button>
          ))}
        </fieldset>
      </div>
      <div className="dock-group">
        <span className="dock-label">Snaps to</span>
        <fieldset className="choices" aria-label="Snaps to">
          {KINDS.map(({ value, name }) => (
            <button key={value} type="button" aria-pressed={kinds.has(value)} onClick={() => toggleKind(value)}>
              {name}
            </button>
          ))}
        </fieldset>
      </div>
      <div className="dock-group">
        <span className="dock-label">Whole {unit}</span>
        <Choices
          label="Whole steps"
          options={names.map((name) => ({ value: name, name }))}
          value={names[grid] ?? null}
          onChoose={(name) => useDrag.setState({ grid: (names as readonly string[]).indexOf(name) })}
        />
      </div>
    </div>
  );
}
