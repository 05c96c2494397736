import { Popover } from "@base-ui/react/popover";
import type { Layout } from "../shell/useLayout.ts";
import { viewHandle } from "../shell/viewHandle.ts";
import { useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { StandChoices } from "./Dock.tsx";

const TURN_deg = 15;
const NEARER = 0.8;

/**
 * The eye's movements as buttons, for fingers and for the keyboard alone; where the dock is narrow, also where to stand.
 */
export function LookButton({ layout }: { layout: Layout }) {
  const isWide = layout === "wide";
  const stand = useApp((state) => state.stand);
  return (
    <Popover.Root>
      <Popover.Trigger
        className="group-chip look-button"
        aria-label={isWide ? undefined : stand ? t(`corner.stand.from.${stand}`) : t("corner.stand.turned")}
      >
        {isWide ? (
          t("corner.stand.turn")
        ) : (
          <Rich
            text={
              stand
                ? t("corner.stand.shown", { stand: t(`corner.stand.names.${stand}`) })
                : t("corner.stand.turnedShown")
            }
          />
        )}
      </Popover.Trigger>
      <Popover.Portal>
        <Popover.Positioner sideOffset={8} align="end" className="menu-place">
          <Popover.Popup
            className="menu look-menu"
            aria-label={isWide ? t("corner.stand.turn") : t("corner.stand.choose")}
          >
            {!isWide && <StandChoices />}
            <div className="look-moves">
              <MoveButton name={t("corner.stand.moves.left")} move={() => viewHandle.current?.orbitBy(TURN_deg, 0)} />
              <MoveButton name={t("corner.stand.moves.over")} move={() => viewHandle.current?.orbitBy(0, TURN_deg)} />
              <MoveButton name={t("corner.stand.moves.right")} move={() => viewHandle.current?.orbitBy(-TURN_deg, 0)} />
              <MoveButton name={t("corner.stand.moves.nearer")} move={() => viewHandle.current?.zoomBy(NEARER)} />
              <MoveButton name={t("corner.stand.moves.under")} move={() => viewHandle.current?.orbitBy(0, -TURN_deg)} />
              <MoveButton name={t("corner.stand.moves.further")} move={() => viewHandle.current?.zoomBy(1 / NEARER)} />
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
