import { t } from "../text/text.ts";

/** Where a hard point may live. */
export function RoomPanel() {
  return (
    <div className="loads-scroll">
      <p className="tool-note">{t("room.caution")}</p>
    </div>
  );
}
