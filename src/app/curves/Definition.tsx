import { Popover } from "@base-ui/react/popover";
import { t } from "../text/text.ts";
import type { CurveKind } from "./curveKinds.ts";

/** The curve's name; pressing it tells what it is. */
export function Definition({ kind: { name, meaning, definition } }: { kind: CurveKind }) {
  return (
    <Popover.Root>
      <Popover.Trigger className="curve-name" aria-label={t("curves.define", { name })}>
        <span>{name}</span>
      </Popover.Trigger>
      <Popover.Portal>
        <Popover.Positioner sideOffset={6} align="start" className="menu-place">
          <Popover.Popup className="menu curve-definition">
            <Popover.Title>{name}</Popover.Title>
            <Popover.Description>{definition}</Popover.Description>
            <p className="tool-note">{t("curves.shownAs", { meaning })}</p>
          </Popover.Popup>
        </Popover.Positioner>
      </Popover.Portal>
    </Popover.Root>
  );
}
