import { useEffect } from "react";
import { useUpdate } from "../shell/update.ts";
import { askToKeep, lookAtRoom, useRoom } from "./room.ts";
import { sizeWords } from "./words.ts";

/** Where the projects are kept, how much room there is, and how safe that is. */
export function RoomLine() {
  const { isPromised, used_bytes, most_bytes } = useRoom();
  const offline = useUpdate((state) => state.offline);
  useEffect(() => void lookAtRoom(), []);
  const used = used_bytes !== null && most_bytes !== null && ` ${sizeWords(used_bytes)} of ${sizeWords(most_bytes)}.`;
  return (
    <div className="room-line">
      <p className="quiet">
        Kept in this browser on this machine, and nowhere else.{used}{" "}
        {isPromised === true && "The browser has promised not to throw it away."}
        {isPromised === false && "The browser may throw it away when room runs short: save files now and then."}{" "}
        {offline === true && "The app opens without a network."}
        {offline === false && "The app needs its server to open: this browser keeps no copy of it."}
      </p>
      {isPromised === false && (
        <button type="button" className="button" onClick={() => void askToKeep()}>
          Ask it to keep them
        </button>
      )}
    </div>
  );
}
