import { Dialog } from "@base-ui/react/dialog";
import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import type { InputError } from "../../scene/error.ts";
import { partOf } from "../../scene/parts/parts.ts";
import { addUnit, type Unit as SceneUnit } from "../../scene/parts/units.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { PartPicture } from "./PartPicture.tsx";
import { troubleText } from "./partDraft.ts";
import { editParts } from "./partEdits.ts";
import { heldIdOf } from "./partGroups.ts";
import { usePartsLook } from "./partsStore.ts";
import { ShelfForm } from "./ShelfForm.tsx";
import { SHELF, type ShelfItem } from "./shelfItems.ts";

/** Ready parts by their pictures; picking one asks for its points and sizes. */
export function Shelf() {
  const open = usePartsLook((look) => look.shelfOpen);
  const document = useApp((state) => state.document);
  const close = () => usePartsLook.setState({ shelfOpen: false });
  return (
    <Dialog.Root open={open} onOpenChange={(wanted) => !wanted && close()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog shelf">
          {document && <ShelfSteps document={document} onClose={close} />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function ShelfSteps({ document, onClose }: { document: SceneDocument; onClose(): void }) {
  const [picked, setPicked] = useState<ShelfItem | null>(null);
  const [refused, setRefused] = useState<InputError | null>(null);
  const pick = (item: ShelfItem) => {
    setRefused(null);
    if (item.unit === null) {
      setPicked(item);
      return;
    }
    const error = takeUnit(document, item);
    if (error) setRefused(error);
    else onClose();
  };
  if (picked?.recipe) {
    return (
      <ShelfForm
        key={picked.name}
        document={document}
        recipe={picked.recipe}
        onBack={() => setPicked(null)}
        onAdded={(id) => {
          showPart(id);
          onClose();
        }}
      />
    );
  }
  return <ShelfCards document={document} refused={refused} onPick={pick} />;
}

/** The wheel and units that are there already are taken in hand; others are added first. */
function takeUnit(document: SceneDocument, item: ShelfItem): InputError | null {
  const { unit } = item;
  if (unit !== null && unit !== "wheel" && !document[unit]) {
    const error = editParts(t(`parts.edit.addUnit.${unit}`), (now) => addUnit(now, unit as SceneUnit));
    if (error) return error;
  }
  const now = app.getState().document ?? document;
  showPart(heldIdOf(partOf(now, item.name)));
  return null;
}

function showPart(id: string): void {
  app.getState().holdPoint(null);
  usePointsLook.setState({ list: "parts" });
  app.getState().hold(id);
}

interface CardsProps {
  readonly document: SceneDocument;
  readonly refused: InputError | null;
  onPick(item: ShelfItem): void;
}

function ShelfCards({ document, refused, onPick }: CardsProps) {
  const [search, setSearch] = useState("");
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  const items = SHELF.filter(({ title, about }) => {
    const text = `${title} ${about}`.toLowerCase();
    return words.every((word) => text.includes(word));
  });
  return (
    <>
      <Dialog.Title>{t("parts.shelf.title")}</Dialog.Title>
      <Dialog.Description className="lead">{t("parts.shelf.lead")}</Dialog.Description>
      <input
        className="field"
        type="search"
        aria-label={t("parts.shelf.search")}
        placeholder={t("parts.shelf.search")}
        value={search}
        onChange={(event) => setSearch(event.target.value)}
      />
      {refused && (
        <p className="point-error" role="alert">
          {troubleText(refused)}
        </p>
      )}
      <div className="shelf-cards">
        {items.map((item) => (
          <button key={item.name} type="button" className="shelf-card" onClick={() => onPick(item)}>
            <PartPicture made={item.picture} document={document} label="" width={168} height={104} />
            <b>{item.title}</b>
            <small>{item.unit !== null && isThere(document, item.unit) ? t("parts.shelf.isThere") : item.about}</small>
          </button>
        ))}
        {items.length === 0 && <p className="quiet">{t("parts.shelf.none", { search })}</p>}
      </div>
      <div className="dialog-buttons">
        <Dialog.Close className="button">{t("parts.shelf.close")}</Dialog.Close>
      </div>
    </>
  );
}

function isThere(document: SceneDocument, unit: NonNullable<ShelfItem["unit"]>): boolean {
  return document[unit] !== undefined;
}
