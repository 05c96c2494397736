import type { ReactNode } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { useApp } from "../store/useApp.ts";
import { partInHand } from "./handles.ts";
import { PartSheet } from "./PartSheet.tsx";
import { PowertrainSheet } from "./PowertrainSheet.tsx";
import { usePartsLook } from "./partsStore.ts";

/** The sheet of the part in hand, or of the powertrain as one; the lists (`children`) while nothing is. */
export function HeldPart({ document, children }: { document: SceneDocument; children: ReactNode }) {
  const heldPart = useApp((state) => state.heldPart);
  const powertrainOpen = usePartsLook((look) => look.powertrainOpen);
  if (powertrainOpen) return <PowertrainSheet document={document} />;
  const part = heldPart === null ? null : partInHand(document, heldPart);
  return part ? <PartSheet key={part.id} part={part} document={document} /> : children;
}
