import { t } from "../text/text.ts";
import { PointTable } from "./PointTable.tsx";
import { usePointsLook } from "./pointsStore.ts";

/** Below the view: a bar that opens the table of all points. */
export function PointDrawer() {
  const open = usePointsLook((look) => look.tableOpen);
  const toggle = (
    <button
      type="button"
      className="button plain"
      aria-expanded={open}
      onClick={() => usePointsLook.setState({ tableOpen: !open })}
    >
      {t(`points.table.${open ? "close" : "open"}`)}
    </button>
  );
  return (
    <div className="point-drawer" data-open={open}>
      {open ? <PointTable>{toggle}</PointTable> : toggle}
    </div>
  );
}
