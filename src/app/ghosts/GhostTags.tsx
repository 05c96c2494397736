import "./ghosts.css";
import { useProjected } from "../corner/projected.ts";
import { useApp } from "../store/useApp.ts";
import { travelText } from "../words/travel.ts";
import type { GhostTag } from "./useGhostView.ts";

/** Says at each ghost wheel which travel it stands for. */
export function GhostTags({ tags, offset }: { tags: readonly GhostTag[]; offset: number }) {
  const projected = useProjected((state) => state.points);
  const unit = useApp((state) => state.unit);
  return (
    <div className="ghost-tags" aria-hidden="true">
      {tags.map(({ travel_mm, at }, i) => {
        const spot = projected[offset + i];
        return (
          spot?.visible && (
            <span key={`${travel_mm} ${at[1]}`} style={{ left: `clamp(60px, ${spot.x}px, 100% - 60px)`, top: spot.y }}>
              {travelText(travel_mm, unit)}
            </span>
          )
        );
      })}
    </div>
  );
}
