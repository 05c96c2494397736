import { memo } from "react";
import { Choices } from "../shell/Choices.tsx";
import { t } from "../text/text.ts";
import { usePointsLook } from "./pointsStore.ts";

const TYPED = (["place", "step"] as const).map((value) => ({ value, name: t(`points.typed.${value}`) }));

/** Whether the fields hold where the point is, read from the datum, or how far it goes from where it is kept. */
export const TypedChooser = memo(function TypedChooser() {
  const typed = usePointsLook((look) => look.typed);
  return (
    <div className="typed-chooser">
      <span className="quiet">{t("points.typed.label")}</span>
      <Choices
        label={t("points.typed.label")}
        options={TYPED}
        value={typed}
        onChoose={(chosen) => usePointsLook.setState({ typed: chosen })}
      />
    </div>
  );
});
