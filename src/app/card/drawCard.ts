import type { Card } from "../../buildlog/entry.ts";
import { pictureBlob } from "../log/usePicture.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { travelNumber } from "../words/travel.ts";
import { drawMark, drawPlain, drawText, INK, INK2, LINE, rule, WIDTH } from "./drawing.ts";
import { cardSide, checkedText, originText, pointFacts, stateText, verdictFacts, wheelReadings } from "./facts.ts";
import { fullWhen } from "./when.ts";

/** Two dots of the picture for each one it is laid out in, so that it stays crisp on a phone. */
const SCALE = 2;
const MARGIN = 40;
const INNER = WIDTH - 2 * MARGIN;
const MOST_VERDICTS = 12;

/** The card as one PNG: head, picture, verdicts, points and wheel, note, caution. */
export async function drawCard(card: Card, unit: Unit): Promise<Blob> {
  await document.fonts?.ready;
  const picture = card.picture ? await createImageBitmap(pictureBlob(card.picture)) : null;
  const height = paint(contextOf(1, 1), card, unit, picture);
  const context = contextOf(WIDTH * SCALE, Math.ceil(height) * SCALE);
  context.scale(SCALE, SCALE);
  context.fillStyle = "#ffffff";
  context.fillRect(0, 0, WIDTH, height);
  paint(context, card, unit, picture);
  picture?.close();
  return new Promise((resolve, reject) => {
    context.canvas.toBlob(
      (blob) => (blob ? resolve(blob) : reject(new Error(t("card.trouble.noPicture")))),
      "image/png",
    );
  });
}

function contextOf(width: number, height: number): CanvasRenderingContext2D {
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext("2d");
  if (!context) throw new Error(t("card.trouble.noPicture"));
  return context;
}

type Context = CanvasRenderingContext2D;

/** Draws all of it and tells how high it is: the first call, on a canvas of one dot, only measures. */
function paint(context: Context, card: Card, unit: Unit, picture: ImageBitmap | null): number {
  let y = paintHead(context, card, unit, MARGIN);
  if (picture) {
    const height = (picture.height / picture.width) * INNER;
    context.drawImage(picture, MARGIN, y, INNER, height);
    context.strokeStyle = LINE;
    context.strokeRect(MARGIN + 0.5, y + 0.5, INNER - 1, height - 1);
    y += height + 26;
  }
  y = paintVerdicts(context, card, unit, y);
  const left = paintPoints(context, card, unit, y + 22);
  const right = paintWheel(context, card, unit, y + 22);
  y = Math.max(left, right) + 22;
  if (card.note) {
    y = drawText(context, t("card.note"), MARGIN, y, { size: 18, weight: 700 });
    rule(context, MARGIN, y, INNER);
    y = drawText(context, card.note, MARGIN, y + 8, { size: 18, italic: true, width: INNER }) + 20;
  }
  rule(context, MARGIN, y, INNER);
  y = drawText(context, card.caution, MARGIN, y + 10, { size: 15, width: INNER });
  y = drawText(context, originText(card), MARGIN, y + 8, { size: 14, colour: INK2 });
  return y + MARGIN - 12;
}

function paintHead(context: Context, card: Card, unit: Unit, top: number): number {
  const right = { size: 16, align: "right" } as const;
  const whenBottom = drawText(context, fullWhen(card.made), WIDTH - MARGIN, top, { ...right, weight: 650 });
  const stateBottom = drawText(context, stateText(card, unit), WIDTH - MARGIN, whenBottom, right);
  const head = t("card.sheet.head", { number: card.number, scene: card.sceneTitle });
  let y = drawText(context, head, MARGIN, top, { size: 16, colour: INK2 });
  y = drawText(context, card.title, MARGIN, y, { size: 32, weight: 740, width: INNER - 380 });
  y = Math.max(y, stateBottom) + 8;
  context.fillStyle = INK;
  context.fillRect(MARGIN, y, INNER, 4);
  return y + 22;
}

function paintVerdicts(context: Context, card: Card, unit: Unit, top: number): number {
  const facts = verdictFacts(card, unit);
  const head = { size: 15, colour: INK2 } as const;
  let y = drawText(context, t("card.sheet.verdicts"), MARGIN, top, { size: 18, weight: 700 });
  drawText(context, checkedText(card, unit), WIDTH - MARGIN, top + 3, { ...head, align: "right" });
  rule(context, MARGIN, y + 2, INNER, INK);
  y += 8;
  drawText(context, t("card.sheet.closest"), WIDTH - MARGIN - 90, y, { ...head, align: "right" });
  y = drawText(context, t("card.sheet.wants"), WIDTH - MARGIN, y, { ...head, align: "right" }) + 4;
  for (const fact of facts.slice(0, MOST_VERDICTS)) {
    rule(context, MARGIN, y, INNER);
    drawMark(context, fact.mark, MARGIN, y + 8, 22);
    drawText(context, fact.closest, WIDTH - MARGIN - 90, y + 7, { size: 18, weight: 680, align: "right" });
    drawText(context, fact.wants, WIDTH - MARGIN, y + 7, { size: 18, align: "right" });
    y = drawText(context, fact.name, MARGIN + 34, y + 7, { size: 18, width: INNER - 440 }) + 7;
  }
  if (facts.length > MOST_VERDICTS) {
    rule(context, MARGIN, y, INNER);
    y = drawText(context, t("card.more", { count: facts.length - MOST_VERDICTS }), MARGIN + 34, y + 7, head) + 7;
  }
  rule(context, MARGIN, y, INNER);
  return y;
}

function paintPoints(context: Context, card: Card, unit: Unit, top: number): number {
  const facts = pointFacts(card, unit);
  if (facts.length === 0) return top;
  const width = INNER * 0.58;
  const columns = [width - 200, width - 100, width].map((x) => MARGIN + x);
  let y = drawText(context, t("card.sheet.points"), MARGIN, top, { size: 18, weight: 700 });
  rule(context, MARGIN, y + 2, width, INK);
  y += 8;
  (["forward", "out", "up"] as const).forEach((way, column) => {
    drawText(context, t(`card.sheet.${way}`), columns[column]!, y, { size: 15, colour: INK2, align: "right" });
  });
  y += 22;
  for (const fact of facts) {
    rule(context, MARGIN, y, width);
    [fact.forward, fact.out, fact.up].forEach((value, column) => {
      drawText(context, value, columns[column]!, y + 6, { size: 17, align: "right" });
    });
    y = drawText(context, fact.title, MARGIN, y + 6, { size: 17, width: width - 290 });
    y = drawText(context, fact.name, MARGIN, y - 2, { size: 13, colour: INK2, width: width - 290 }) + 6;
  }
  return y;
}

function paintWheel(context: Context, card: Card, unit: Unit, top: number): number {
  const side = cardSide(card);
  const wheel = card.wheels.find((found) => found.side === side);
  const readings = wheel ? wheelReadings(wheel, unit) : [];
  if (readings.length === 0) return top;
  const x = MARGIN + INNER * 0.64;
  const width = INNER * 0.36;
  const title = t(`card.sheet.wheelOn.${side}`, { travel: travelNumber(card.travel_mm[side], unit) });
  let y = drawText(context, title, x, top, { size: 18, weight: 700 });
  rule(context, x, y + 2, width, INK);
  y += 8;
  for (const { name, value } of readings) {
    drawPlain(context, name, x, y);
    y = drawText(context, value, WIDTH - MARGIN, y + 6, { size: 17, weight: 650, align: "right" }) + 6;
    rule(context, x, y, width);
  }
  return y;
}
