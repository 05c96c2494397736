import { t } from "../text/text.ts";
import { useScan } from "./scanStore.ts";

/** How far the worker has come, where that is known; else that it is at work. */
export function StageBar() {
  const { stage, share } = useScan();
  if (stage === null) return null;
  return <progress aria-label={t(`scans.stages.${stage}`)} {...(share === null ? {} : { value: share, max: 1 })} />;
}
