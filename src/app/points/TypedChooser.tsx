import { memo } from "react";
import { Choices } from "../shell/Choices.tsx";
import { usePointsLook } from "./pointsStore.ts";

const TYPED = [
  { value: "place", name: "a place" },
  { value: "step", name: "a step" },
] as const;

/** Whether the fields hold where the point is, read from the datum, or how far it goes from where it is kept. */
export const TypedChooser = memo(function TypedChooser() {
  const typed = usePointsLook((look) => look.typed);
  return (
    <div className="typed-chooser">
      <span className="quiet">A number is</span>
      <Choices
        label="A number is"
        options={TYPED}
        value={typed}
        onChoose={(chosen) => usePointsLook.setState({ typed: chosen })}
      />
    </div>
  );
});
