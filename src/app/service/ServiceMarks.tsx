import { useProjected } from "../corner/projected.ts";
import { placeLabels } from "../measure/labels.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import { capital, partName } from "./serviceText.ts";
import type { ServiceMark } from "./useServiceView.ts";
import "./service.css";

interface ServiceMarksProps {
  readonly marks: readonly ServiceMark[];
  /** Where they begin among the projected points. */
  readonly offset: number;
  readonly width: number;
  readonly height: number;
}

/** Rings where a tool or a part meets another, with its name. */
export function ServiceMarks({ marks, offset, width, height }: ServiceMarksProps) {
  const projected = useProjected((state) => state.points);
  const document = useApp((state) => state.document);
  const unit = useApp((state) => state.unit);
  if (!document) return null;
  const shown = marks.flatMap(({ part, depth_mm }, i) => {
    const at = projected[offset + i];
    if (!at?.visible) return [];
    const name = capital(partName(part, document));
    const text = depth_mm === null ? name : t("service.mark", { part: name, amount: lengthText(depth_mm, unit) });
    return [{ part, at, text }];
  });
  const labels = placeLabels(
    shown.map(({ at, text }) => ({ at, letters: text.length })),
    width,
    height,
  );
  return (
    <div className="service-marks">
      <svg aria-hidden="true">
        {shown.map(({ part, at }, i) => (
          <g key={part}>
            <path className="halo" d={`M${at.x} ${at.y}L${labels[i]!.x} ${labels[i]!.y + 14}`} />
            <path className="leader" d={`M${at.x} ${at.y}L${labels[i]!.x} ${labels[i]!.y + 14}`} />
            <circle className="halo" cx={at.x} cy={at.y} r="10" />
            <circle cx={at.x} cy={at.y} r="10" />
          </g>
        ))}
      </svg>
      {shown.map(({ part, text }, i) => (
        <div key={part} className="load-label tabular" style={{ left: labels[i]!.x, top: labels[i]!.y }}>
          {text}
        </div>
      ))}
    </div>
  );
}
