import type { PieceFieldKey } from "../../scene/parts/pieceFields.ts";
import type { TextFault } from "../../scene/placeText.ts";
import { lengthFaultText } from "../points/lengthFaultText.ts";
import { t } from "../text/text.ts";

/** Why what stands in the field cannot be. */
export function faultText(fault: TextFault, field: PieceFieldKey): string {
  switch (fault.code) {
    case "missing":
      return t("pieces.faults.missing", { field: t(`pieces.fields.${field}`) });
    case "noPoint":
      return t("pieces.faults.noPoint", { word: fault.word });
    case "noLength":
      return fault.word === null
        ? t("pieces.faults.noLengthAlone", { why: lengthFaultText(fault.length) })
        : t("pieces.faults.noLength", { word: fault.word, why: lengthFaultText(fault.length) });
    case "lengths":
      return t("pieces.faults.lengths", { number: fault.number });
    case "row":
    case "hole":
      return t(`pieces.faults.${fault.code}`, { number: fault.number, why: faultText(fault.fault, field) });
    default:
      return t(`pieces.faults.${fault.code}`);
  }
}
