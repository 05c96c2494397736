import type { LengthFault } from "../../scene/length.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";

/** Why what was typed is no length, and what to write. */
export function lengthFaultText(fault: LengthFault): string {
  switch (fault.code) {
    case "not-a-length":
    case "too-far":
      return t(`points.lengthFaults.${fault.code}`);
    case "two-ways":
      return t("points.lengthFaults.two-ways", { written: fault.written, first: fault.first, second: fault.second });
    case "no-name":
      return t("points.lengthFaults.no-name", { example: fault.example });
    case "no-sign":
      return t("points.lengthFaults.no-sign", { name: fault.name });
    case "missing-point": {
      const { word, nearest, known } = fault;
      if (nearest !== null) return t("points.lengthFaults.nearest", { word, nearest });
      if (known.length === 0) return t("points.lengthFaults.noPoints", { word });
      return t("points.lengthFaults.known", { word, points: listText(known, "unit") });
    }
  }
}
