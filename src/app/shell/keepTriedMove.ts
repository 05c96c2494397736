import { pointInfos } from "../points/pointInfo.ts";
import { keepTried } from "../points/usePointMove.ts";
import type { App } from "../store/actions.ts";
import { useTools } from "../tools/toolsStore.ts";

/**
 * Keeps the tried move under the name that the hard-point sheet would give it, or a tried edit under its own unless a part's sheet,
 * which may hold what is no size, sees to that.
 */
export function keepTriedMove({ document, tried, triedEdit, error, place, keepEdit }: App): void {
  if (triedEdit && !error && (place === "corner" || useTools.getState().open === "studies")) keepEdit();
  const info = document && tried && pointInfos(document).find(({ name }) => name === tried.point);
  if (info) keepTried(info);
}
