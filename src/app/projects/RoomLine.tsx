import { useEffect } from "react";
import { useUpdate } from "../shell/update.ts";
import { t } from "../text/text.ts";
import { askToKeep, lookAtRoom, useRoom } from "./room.ts";
import { sizeWords } from "./words.ts";

/** Where the projects are kept, how much room there is, and how safe that is. */
export function RoomLine() {
  const { isPromised, used_bytes, most_bytes } = useRoom();
  const offline = useUpdate((state) => state.offline);
  useEffect(() => void lookAtRoom(), []);
  const said = [
    t("projects.room.where"),
    used_bytes !== null &&
      most_bytes !== null &&
      t("projects.room.used", { used: sizeWords(used_bytes), most: sizeWords(most_bytes) }),
    isPromised !== null && t(`projects.room.${isPromised ? "promised" : "notPromised"}`),
    offline !== null && t(`projects.room.${offline ? "offline" : "online"}`),
  ];
  return (
    <div className="room-line">
      <p className="quiet">{said.filter(Boolean).join(" ")}</p>
      {isPromised === false && (
        <button type="button" className="button" onClick={() => void askToKeep()}>
          {t("projects.room.ask")}
        </button>
      )}
    </div>
  );
}
