import { Menu } from "@base-ui/react/menu";
import type { SceneDocument } from "../../scene/document.ts";
import type { InputError } from "../../scene/error.ts";
import { ownShape, type Part } from "../../scene/parts/parts.ts";
import { piecesOf } from "../../scene/parts/pieces.ts";
import { addUnit } from "../../scene/parts/units.ts";
import { openPiecesOf } from "../pieces/piecesStore.ts";
import { t } from "../text/text.ts";
import { editParts } from "./partEdits.ts";
import { partName } from "./partGroups.ts";
import { ask } from "./partsStore.ts";

interface PartMenuProps {
  readonly part: Part;
  readonly document: SceneDocument;
  onRefused(error: InputError | null): void;
}

/** What is done to a part as a whole. */
export function PartMenu({ part, document, onRefused }: PartMenuProps) {
  const isNamed = part.kind === "body" || part.kind === "member";
  const name = partName(part, document);
  return (
    <Menu.Root>
      <Menu.Trigger className="button part-menu" aria-label={t("parts.menu.label", { name })}>
        {t("parts.menu.more")}
      </Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner sideOffset={4} align="end" className="picker-place">
          <Menu.Popup className="menu">
            {isNamed && (
              <Menu.Item className="menu-item" onClick={() => ask("rename")}>
                {t("parts.menu.rename")}
              </Menu.Item>
            )}
            {part.kind === "body" && (
              <Menu.Item className="menu-item" onClick={() => ask("copy")}>
                {t("parts.menu.copy")}
              </Menu.Item>
            )}
            {isNamed && hasPieces(document, part.id) && (
              <Menu.Item className="menu-item" onClick={() => openPiecesOf(part.id)}>
                {t("pieces.menu")}
              </Menu.Item>
            )}
            {part.kind === "driveshaft" && (
              <Menu.Item
                className="menu-item"
                onClick={() => onRefused(editParts(t("parts.edit.joints"), (now) => addUnit(now, "driveshaft")))}
              >
                {t("parts.menu.joints")}
              </Menu.Item>
            )}
            {part.kind !== "wheel" && (
              <Menu.Item className="menu-item" onClick={() => ask("delete")}>
                {t("parts.menu.delete")}
              </Menu.Item>
            )}
            {part.kind === "wheel" && <p className="menu-label">{t("parts.menu.wheel")}</p>}
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}

/** A shape that is drawn by a scan, or placed as a whole, is not taken apart. */
function hasPieces(document: SceneDocument, id: string): boolean {
  const shape = ownShape(document, id);
  return shape === null || piecesOf(shape) !== null;
}
