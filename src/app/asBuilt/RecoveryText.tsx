import { scale } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { ALONG, type Setting } from "../../studies/asBuilt/means.ts";
import type { Recovery } from "../../studies/asBuilt/recover.ts";
import { titleOf } from "../moves/tryFound.ts";
import { wayText } from "../moves/wayText.ts";
import type { Unit } from "../store/state.ts";
import { listText, withinText } from "../text/formats.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { nameWithin } from "../words/names.ts";
import { angleText, lengthText } from "../words/number.ts";

interface RecoveryTextProps {
  readonly recovery: Recovery;
  readonly document: SceneDocument;
  readonly unit: Unit;
}

/** What is set, what the wheel then does, and whether that is near enough. */
export function RecoveryText({ recovery, document, unit }: RecoveryTextProps) {
  const { settings, toe_deg, camber_deg, isEnough } = recovery;
  const values = {
    settings: listText(settings.map((setting) => settingText(setting, document, unit))),
    toe: angleText(toe_deg, { signed: true }),
    camber: angleText(camber_deg, { signed: true }),
  };
  return (
    <p className={isEnough ? undefined : "gear-past"}>
      <Rich
        text={t(
          `asBuilt.recovery.${settings.length === 0 ? "nothing" : "set"}.${isEnough ? "enough" : "short"}`,
          values,
        )}
      />
    </p>
  );
}

/** "arm, pivot 2 outboard"; "upper link 0.5 mm longer" */
function settingText({ means, by_mm }: Setting, document: SceneDocument, unit: Unit): string {
  if (means.kind === "adjuster") {
    return t(`asBuilt.recovery.${by_mm > 0 ? "longer" : "shorter"}`, {
      part: nameWithin(means.member, document),
      amount: lengthText(Math.abs(by_mm), unit),
    });
  }
  return t("moves.pointWay", {
    point: withinText(titleOf(document, means.point)),
    way: wayText(scale(ALONG[means.along], by_mm), unit),
  });
}
