import "./view.css";
import { useRef } from "react";
import type { Layout } from "../shell/useLayout.ts";
import { useSize } from "../shell/useSize.ts";
import { useApp } from "../store/useApp.ts";
import { Dock, StandChoices } from "./Dock.tsx";
import { GroupChips } from "./GroupChips.tsx";
import { WheelRules } from "./WheelRules.tsx";

/** The 3D view and what lies over it. */
export function CornerView({ layout }: { layout: Layout }) {
  const place = useRef<HTMLElement>(null);
  const size = useSize(place);
  const hasScene = useApp((state) => state.scene !== null);
  return (
    <section className="view" aria-label="View" ref={place}>
      {size && hasScene && <WheelRules layout={layout} viewHeight={size.height} />}
      <div className="view-head">
        <GroupChips />
        {layout !== "wide" && <StandChoices />}
      </div>
      <Dock />
    </section>
  );
}
