import type { SceneDocument } from "../../scene/document.ts";
import type { Together } from "../../studies/together/together.ts";
import type { TogetherQuestion } from "../../work/protocol.ts";
import { app } from "../store/useApp.ts";
import { askedStudy } from "../studies/askedStudy.ts";

export const togetherStudy = askedStudy<TogetherQuestion, Together>();

export function togetherQuestion(document: SceneDocument): TogetherQuestion {
  return { document };
}

/** Takes both wheels and the engine to a state. */
export function goTo({
  left_mm,
  right_mm,
  pose,
  share = 1,
}: {
  readonly left_mm: number;
  readonly right_mm: number;
  readonly pose: string;
  readonly share?: number | undefined;
}): void {
  const { scene, setPose } = app.getState();
  if (!scene) return;
  const { bump_mm, droop_mm } = scene.travel;
  const within = (travel_mm: number) => Math.max(-droop_mm, Math.min(bump_mm, travel_mm));
  const [left, right] = [within(left_mm), within(right_mm)];
  app.setState({ wheels: left === right ? "together" : "opposed", travel_mm: { left, right } });
  setPose(pose, share);
}
