import { PaperChoice } from "../card/PaperChoice.tsx";
import { TextLine } from "../parts/TextLine.tsx";
import { DatumChooser } from "../points/DatumChooser.tsx";
import { t } from "../text/text.ts";
import { usePaper } from "./paperStore.ts";

/** What every printed sheet asks for: paper, revision and, where lengths are read from one, the datum. */
export function SheetSetting({ hasDatum = false }: { hasDatum?: boolean }) {
  const revision = usePaper((look) => look.revision);
  return (
    <div className="paper-setting">
      {hasDatum && <DatumChooser />}
      <TextLine
        label={t("paper.revision")}
        value={revision}
        onChange={(text) => usePaper.setState({ revision: text })}
      />
      <PaperChoice />
    </div>
  );
}
