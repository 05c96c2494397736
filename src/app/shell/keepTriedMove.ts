import { pointInfos } from "../points/pointInfo.ts";
import { keepTried } from "../points/usePointMove.ts";
import type { App } from "../store/actions.ts";

/** Keeps the tried move under the name that the hard-point sheet would give it. */
export function keepTriedMove({ document, tried }: App): void {
  const info = document && tried && pointInfos(document).find(({ name }) => name === tried.point);
  if (info) keepTried(info);
}
