import { PAPERS } from "../../fabrication/paper/sizes.ts";
import { Choices } from "../shell/Choices.tsx";
import { t } from "../text/text.ts";
import { usePrinting } from "./printing.ts";

export function PaperChoice() {
  const paper = usePrinting((state) => state.paper);
  return (
    <Choices
      label={t("card.paper")}
      options={PAPERS.map((value) => ({ value, name: t(`card.papers.${value}`) }))}
      value={paper}
      onChoose={usePrinting.getState().choosePaper}
    />
  );
}
