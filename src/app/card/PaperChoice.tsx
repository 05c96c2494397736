import { Choices } from "../shell/Choices.tsx";
import { t } from "../text/text.ts";
import { type Paper, usePrinting } from "./printing.ts";

const PAPERS: readonly Paper[] = ["a4", "letter"];

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
