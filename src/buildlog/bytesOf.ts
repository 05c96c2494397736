/** Where a card has bytes; `Bytes` is how a file holds them. */
export interface BytesPlace {
  /** "picture", "views[0].picture", "photos[2]": the record that the bytes lie in. */
  readonly path: string;
  /** The builder's own name for it, "" without one. */
  readonly name: string;
}

/**
 * The card (or what is to become one) with every `png` and `bytes` of its picture, views and photos given through `change`.
 * What does not look like a card stays as it is: the card's own check names it.
 */
export function withBytes(card: unknown, change: (bytes: unknown, place: BytesPlace) => unknown): unknown {
  if (!isRecord(card)) return card;
  const picture = (value: unknown, path: string, name: string) =>
    isRecord(value) && "png" in value ? { ...value, png: change(value.png, { path, name }) } : value;
  const view = (value: unknown, i: number) =>
    isRecord(value)
      ? { ...value, picture: picture(value.picture, `views[${i}].picture`, nameOf(value) || String(value.state)) }
      : value;
  const photo = (value: unknown, i: number) =>
    isRecord(value) && "bytes" in value
      ? { ...value, bytes: change(value.bytes, { path: `photos[${i}]`, name: nameOf(value) }) }
      : value;
  return {
    ...card,
    ...("picture" in card ? { picture: picture(card.picture, "picture", "") } : {}),
    ...(Array.isArray(card.views) ? { views: card.views.map(view) } : {}),
    ...(Array.isArray(card.photos) ? { photos: card.photos.map(photo) } : {}),
  };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function nameOf(value: Record<string, unknown>): string {
  return typeof value.name === "string" ? value.name : "";
}
