import { memo } from "react";
import { useProjectedRange } from "../corner/projected.ts";
import { placeLabels } from "../measure/labels.ts";
import { viewHandle } from "../shell/viewHandle.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { arrowPaths, isPicked, roundDown } from "./arrows.ts";
import { useLoadsLook } from "./loadsStore.ts";
import { partText } from "./partNames.ts";
import { forceText, N_PER_LBF, roundForceText } from "./quantity.ts";
import type { LoadsView } from "./useLoadsView.ts";
import "./loads.css";

interface LoadArrowsProps {
  readonly view: LoadsView;
  /** Where they begin among the projected points. */
  readonly offset: number;
  readonly width: number;
  readonly height: number;
}

const NARROW_px = 500;

/**
 * Forces over the picture, each an arrow from where it acts; the picked one with its name, and how long what force is. They
 * follow a pulled point at a distance, so most of its frames leave them as they are.
 */
export const LoadArrows = memo(function LoadArrows({ view, offset, width, height }: LoadArrowsProps) {
  const projected = useProjectedRange(offset, view.marks.length);
  const picked = useLoadsLook((state) => state.picked);
  const unit = useApp((state) => state.unit);
  const drawn = view.arrows.flatMap((arrow, i) => {
    const [tail, tip] = [projected[2 * i], projected[2 * i + 1]];
    if (!tail || !tip || !(tail.visible || tip.visible)) return [];
    return [{ arrow, tip, ...arrowPaths(tail, tip), isPicked: isPicked(arrow, picked) }];
  });
  const told = drawn
    .filter((each) => each.isPicked)
    .map(({ arrow, tip }) => ({
      id: arrow.id,
      tip,
      // a phone's view has no room for names, and the table has them
      text:
        width < NARROW_px
          ? forceText(arrow.force_N, unit)
          : t("loads.arrows.label", { part: partText(arrow.id, view.scene), force: forceText(arrow.force_N, unit) }),
    }));
  const labels = placeLabels(
    told.map(({ tip, text }) => ({ at: tip, letters: text.length * 0.92 })),
    width,
    height,
  );
  const all = (pick: "shaft" | "head", only = false) =>
    drawn
      .filter((each) => !only || each.isPicked)
      .map((each) => each[pick])
      .join("");
  return (
    <div className="load-arrows">
      <svg aria-hidden="true">
        <path className="halo" d={all("shaft") + all("head")} />
        <path className="held" d={all("shaft", true) + all("head", true)} />
        <path className="shaft" d={all("shaft")} />
        <path className="head" d={all("head")} />
        {told.map(({ id, tip }, i) => (
          <path key={id} className="leader" d={`M${tip.x} ${tip.y}L${labels[i]!.x} ${labels[i]!.y + 14}`} />
        ))}
      </svg>
      {told.map(({ id, text }, i) => (
        <div key={id} className="load-label tabular" style={{ left: labels[i]!.x, top: labels[i]!.y }}>
          {text}
        </div>
      ))}
      <Legend view={view} />
    </div>
  );
});

/** The bar of the legend is about this long, px. */
const LEGEND_px = 110;

/** A round force and how long its arrow is where the wheel stands, seen square on. */
function Legend({ view }: { view: LoadsView }) {
  const unit = useApp((state) => state.unit);
  const at = view.arrows[0]?.tail;
  const mm_per_px = at && viewHandle.current?.sight()?.mmPerPx(at);
  if (!mm_per_px) return null;
  const px_per_N = view.mm_per_N / mm_per_px;
  const shown_N = unit === "in" ? N_PER_LBF : 1;
  const force_N = roundDown(LEGEND_px / px_per_N / shown_N) * shown_N;
  const { shaft, head } = arrowPaths({ x: 2, y: 8 }, { x: 2 + force_N * px_per_N, y: 8 });
  return (
    <div className="load-legend">
      <svg width={force_N * px_per_N + 4} height="16" aria-hidden="true">
        <path className="shaft" d={shaft} />
        <path className="head" d={head} />
      </svg>
      <span className="tabular">{t("loads.arrows.legend", { force: roundForceText(force_N, unit) })}</span>
    </div>
  );
}
