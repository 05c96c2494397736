import { useProjected } from "../corner/projected.ts";
import type { RoomView } from "./useRoomView.ts";
import "./room.css";

/** Where the point is, and the place that is looked at, over the picture. `offset`: where they begin among the projected points. */
export function RoomMarks({ view, offset }: { view: RoomView; offset: number }) {
  const points = useProjected((state) => state.points);
  const [now, place] = view.marks.map((_, i) => points[offset + i]);
  return (
    <svg className="view-lines" aria-hidden="true">
      {now?.visible && place?.visible && <path className="room-way" d={`M${now.x} ${now.y}L${place.x} ${place.y}`} />}
      {now?.visible && <circle className="room-now" cx={now.x} cy={now.y} r="10" />}
      {place?.visible && <circle className="room-at" cx={place.x} cy={place.y} r="13" />}
    </svg>
  );
}
