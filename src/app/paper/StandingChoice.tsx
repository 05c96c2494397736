import { Choices } from "../shell/Choices.tsx";
import { t } from "../text/text.ts";
import { usePaper } from "./paperStore.ts";

const STANDINGS = ["drawn", "built"] as const;

/** Whether a sheet shall tell what is drawn, with room to write in, or what was measured on the car. */
export function StandingChoice() {
  const standing = usePaper((look) => look.standing);
  return (
    <Choices
      label={t("paper.frame.state")}
      options={STANDINGS.map((value) => ({ value, name: t(`paper.frame.${value}`) }))}
      value={standing}
      onChoose={(chosen) => usePaper.setState({ standing: chosen })}
    />
  );
}
