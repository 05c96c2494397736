import type { PreparedCheck } from "../check/check.ts";
import type { TreeShelf } from "../clearance/sweepShelf.ts";
import type { PictureAsked } from "../fabrication/picture/picture.ts";
import type { DrawingTools } from "../fabrication/picture/rasterise.ts";
import type { PictureWords } from "../fabrication/picture/words.ts";
import type { Poll } from "../maths/poll.ts";
import type { SceneDocument } from "../scene/document.ts";
import type { Measure } from "../scene/measures.ts";

/** Where what lettering is drawn with can be fetched. */
export interface ToolAddresses {
  readonly program: string;
  readonly fonts: readonly string[];
}

export interface PictureRequest {
  readonly document: SceneDocument;
  /** Those that `asked` may name: no check hangs on them, so they need not be in the document. */
  readonly measures: readonly Measure[];
  readonly asked: PictureAsked;
  readonly words: PictureWords;
  readonly format: "png" | "svg";
  readonly tools: ToolAddresses;
}

/** A picture as a file, and the scale it came out at. */
export interface MadePicture {
  readonly file: Uint8Array<ArrayBuffer>;
  /** Null where the view is not to scale. */
  readonly ratio: number | null;
  /** How many lengths and gaps that were asked for lie outside it. */
  readonly outside: number;
}

let tools: Promise<DrawingTools> | null = null;

/** Draws off the page. What `poll` throws ends it; rejects with InputError as drawPicture throws, and where the tools cannot be fetched. */
export async function makePicture(
  prepared: PreparedCheck,
  trees: TreeShelf,
  { document, measures, asked, words, format, tools: addresses }: PictureRequest,
  poll: Poll,
): Promise<MadePicture> {
  // most pages never draw one
  const [{ drawPicture }, { pngOfPicture, svgOfPicture }] = await Promise.all([
    import("../fabrication/picture/picture.ts"),
    import("../fabrication/picture/files.ts"),
  ]);
  const picture = drawPicture({ document, measures, prepared, trees }, asked, words, poll);
  const told = { ratio: picture.ratio, outside: picture.outside.length };
  if (format === "svg") return { file: new TextEncoder().encode(svgOfPicture(picture)), ...told };
  tools ??= fetchTools(addresses);
  try {
    return { file: await pngOfPicture(picture, await tools), ...told };
  } catch (error) {
    // asked again the next time
    tools = null;
    throw error;
  }
}

async function fetchTools({ program, fonts }: ToolAddresses): Promise<DrawingTools> {
  const [first, ...rest] = await Promise.all([program, ...fonts].map(fetchBytes));
  return { program: first!, fonts: rest };
}

async function fetchBytes(address: string): Promise<Uint8Array<ArrayBuffer>> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`cannot fetch ${address} (${answer.status})`);
  return new Uint8Array(await answer.arrayBuffer());
}
