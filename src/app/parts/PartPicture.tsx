import { useEffect, useRef } from "react";
import type { MadeDocument, SceneDocument, ShapeDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { pointResolver } from "../../scene/pointResolver.ts";
import { makeShape } from "../../scene/recipes/makeShape.ts";
import { resolveShape } from "../../scene/resolveShape.ts";
import { resolving } from "../../scene/resolving.ts";
import type { Shape, Wheel } from "../../scene/scene.ts";
import { useApp } from "../store/useApp.ts";
import type { Inks } from "./drawPart.ts";

interface PartPictureProps {
  /** A recipe's values, or a plain shape. */
  readonly made: MadeDocument | ShapeDocument;
  /** For its points. */
  readonly document: SceneDocument;
  readonly label: string;
  readonly width: number;
  readonly height: number;
}

/** The part as its values draw it; while they do not go together the last picture that could be drawn stays. */
export function PartPicture({ made, document, label, width, height }: PartPictureProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const theme = useApp((state) => state.theme);
  useEffect(() => {
    const target = canvas.current;
    const shape = shapeNow(document, made);
    if (!target || !shape) return;
    let wanted = true;
    // what builds solids is a large part of the app and comes when it is needed
    void inTurn(() => wanted).then((drawing) => {
      const context = target.getContext("2d");
      if (!drawing || !wanted || !context) return;
      const { drawSolid, solidOf } = drawing;
      try {
        const [w, h] = [target.width, target.height];
        const pixels = drawSolid(solidOf(shape, PLAIN_WHEEL), w, h, inksOf(target, theme));
        context.putImageData(new ImageData(pixels, w, h), 0, 0);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
      }
    });
    return () => {
      wanted = false;
    };
  }, [made, document, theme]);
  return (
    <canvas
      ref={canvas}
      className="part-picture"
      role="img"
      aria-label={label}
      aria-hidden={label === "" || undefined}
      width={width * 2}
      height={height * 2}
      style={{ width, height }}
    />
  );
}

/** No recipe draws the scene's own wheel. */
const PLAIN_WHEEL: Wheel = {
  centre: [0, 740, 300],
  tyre: "205/55R16",
  rimWidth_in: 6.5,
  rimOffset_mm: 40,
  toe_deg: 0,
  camber_deg: 0,
};

let last: Promise<unknown> = Promise.resolve();

/** One picture after another, with a breath between them: a shelf of them must not hold up a press. null: not wanted any more. */
function inTurn(isWanted: () => boolean): Promise<typeof import("./drawPart.ts") | null> {
  const turn = last
    .then(() => new Promise((breath) => setTimeout(breath)))
    .then(() => (isWanted() ? import("./drawPart.ts") : null));
  last = turn.catch(() => {});
  return turn;
}

function shapeNow(document: SceneDocument, made: MadeDocument | ShapeDocument): Shape | null {
  try {
    const context = resolving(pointResolver(document), "");
    const shape = "as" in made ? makeShape(made, context.drawn) : (made as ShapeDocument);
    return resolveShape(shape, "made", context.drawn, context);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

const known = new Map<string, Inks>();

function inksOf(element: Element, theme: string): Inks {
  let inks = known.get(theme);
  if (!inks) {
    const style = getComputedStyle(element);
    const of = (token: string) => rgb(style.getPropertyValue(token));
    inks = { light: of("--arms"), dark: of("--hub"), ink: of("--ink") };
    known.set(theme, inks);
  }
  return inks;
}

function rgb(hex: string): [number, number, number] {
  const value = Number.parseInt(hex.trim().slice(1), 16);
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255];
}
