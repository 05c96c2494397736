import { Popover } from "@base-ui/react/popover";
import { viewHandle } from "../shell/viewHandle.ts";
import { useApp } from "../store/useApp.ts";
import { StandChoices } from "./Dock.tsx";

const TURN_deg = 15;
const NEARER = 0.8;

/** For fingers: where to stand, and the eye's movements as buttons. */
export function LookButton() {
  const stand = useApp((state) => state.stand);
  return (
    <Popover.Root>
      <Popover.Trigger
        className="group-chip look-button"
        aria-label={stand ? `Look from ${stand}` : "Look turned by hand"}
      >
        <span className="quiet">{stand ? "Look from" : "Look"}</span> {stand ?? "turned by hand"}
      </Popover.Trigger>
      <Popover.Portal>
        <Popover.Positioner sideOffset={8} align="end" className="menu-place">
          <Popover.Popup className="menu look-menu" aria-label="Where to look from">
            <StandChoices />
            <div className="look-moves">
              <MoveButton name="turn left" move={() => viewHandle.current?.orbitBy(TURN_deg, 0)} />
              <MoveButton name="over" move={() => viewHandle.current?.orbitBy(0, TURN_deg)} />
              <MoveButton name="turn right" move={() => viewHandle.current?.orbitBy(-TURN_deg, 0)} />
              <MoveButton name="nearer" move={() => viewHandle.current?.zoomBy(NEARER)} />
              <MoveButton name="under" move={() => viewHandle.current?.orbitBy(0, -TURN_deg)} />
              <MoveButton name="further" move={() => viewHandle.current?.zoomBy(1 / NEARER)} />
            </div>
          </Popover.Popup>
        </Popover.Positioner>
      </Popover.Portal>
    </Popover.Root>
  );
}

function MoveButton({ name, move }: { name: string; move(): void }) {
  return (
    <button type="button" className="button" onClick={move}>
      {name}
    </button>
  );
}
