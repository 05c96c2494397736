import type { CardPicture, PhotoType } from "../entry.ts";

/** What a report says, without how it looks: HTML, Markdown and paper are made of the same blocks. */
export type ReportBlock = HeadingBlock | TextBlock | FactsBlock | TableBlock | PictureBlock;

export interface HeadingBlock {
  readonly kind: "heading";
  readonly level: 1 | 2 | 3;
  readonly text: string;
  /** Where a card begins: its id. */
  readonly card?: string;
}

/** Line breaks in it are the builder's own. */
export interface TextBlock {
  readonly kind: "text";
  readonly text: string;
  readonly look: "plain" | "note" | "caution";
}

export interface FactsBlock {
  readonly kind: "facts";
  readonly facts: readonly (readonly [name: string, value: string])[];
}

export interface TableBlock {
  readonly kind: "table";
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Columns that hold figures, which stand to the right. */
  readonly figures: readonly number[];
}

export interface PictureBlock {
  readonly kind: "picture";
  readonly caption: string;
  readonly type: PhotoType;
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly isPhoto: boolean;
}

export function pictureBlock({ png, width, height }: CardPicture, caption: string): PictureBlock {
  return { kind: "picture", caption, type: "image/png", bytes: png, width, height, isPhoto: false };
}
