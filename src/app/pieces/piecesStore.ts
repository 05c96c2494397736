import { create } from "zustand";

interface PiecesLook {
  /** new: a part that is to be; an id: a body or member that is drawn anew; null: closed. */
  readonly open: { readonly of: "new" } | { readonly of: "part"; readonly id: string } | null;
}

export const usePieces = create<PiecesLook>()(() => ({ open: null }));

export function openNewPieces(): void {
  usePieces.setState({ open: { of: "new" } });
}

export function openPiecesOf(id: string): void {
  usePieces.setState({ open: { of: "part", id } });
}

export function closePieces(): void {
  usePieces.setState({ open: null });
}
