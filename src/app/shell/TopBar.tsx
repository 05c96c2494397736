import { WordMark } from "../marks/WordMark.tsx";
import type { Theme, Unit } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { Choices } from "./Choices.tsx";
import { isSetupOpen, placesOf } from "./places.ts";
import { SceneMenu } from "./SceneMenu.tsx";
import { UndoButtons } from "./UndoButtons.tsx";
import type { Layout } from "./useLayout.ts";

export const UNITS: readonly { readonly value: Unit; readonly name: string }[] = [
  { value: "mm", name: "mm" },
  { value: "in", name: "in" },
];
export const THEMES: readonly { readonly value: Theme; readonly name: string }[] = [
  { value: "daylight", name: "Daylight" },
  { value: "garage", name: "Garage" },
];

export function TopBar({ layout }: { layout: Layout }) {
  const document = useApp((state) => state.document);
  const chosen = useApp((state) => state.place);
  const place = chosen === "setup" && !isSetupOpen(document) ? "corner" : chosen;
  const unit = useApp((state) => state.unit);
  const theme = useApp((state) => state.theme);
  return (
    <header className="top-bar">
      {layout !== "phone" && <WordMark />}
      <SceneMenu layout={layout} />
      <nav className="places" aria-label="Places">
        {placesOf(document).map(({ value, name, short }) => (
          <button
            key={value}
            type="button"
            aria-label={name}
            aria-current={value === place ? "page" : undefined}
            onClick={() => app.getState().setPlace(value)}
          >
            {layout === "phone" ? short : name}
          </button>
        ))}
      </nav>
      {layout === "wide" && <UndoButtons />}
      {layout !== "phone" && <Choices label="Unit" options={UNITS} value={unit} onChoose={app.getState().setUnit} />}
      {layout !== "phone" && (
        <div className="light">
          <Choices label="Light" options={THEMES} value={theme} onChoose={app.getState().setTheme} />
        </div>
      )}
    </header>
  );
}
