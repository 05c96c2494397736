import { WordMark } from "../marks/WordMark.tsx";
import type { Theme, Unit } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { Choices } from "./Choices.tsx";
import { isSetupOpen, placesOf } from "./places.ts";
import { SceneMenu } from "./SceneMenu.tsx";
import { UndoButtons } from "./UndoButtons.tsx";
import type { Layout } from "./useLayout.ts";

const UNITS: readonly { readonly value: Unit; readonly name: string }[] = [
  { value: "mm", name: "mm" },
  { value: "in", name: "in" },
];
const THEMES: readonly { readonly value: Theme; readonly name: string }[] = [
  { value: "daylight", name: t("shell.light.daylight") },
  { value: "garage", name: t("shell.light.garage") },
];

export function TopBar({ layout }: { layout: Layout }) {
  const document = useApp((state) => state.document);
  const chosen = useApp((state) => state.place);
  const place = chosen === "setup" && !isSetupOpen(document) ? "corner" : chosen;
  const unit = useApp((state) => state.unit);
  const theme = useApp((state) => state.theme);
  return (
    <header className="top-bar">
      {layout === "phone" ? <h1 className="unseen">Elbowroom</h1> : <WordMark />}
      <SceneMenu layout={layout} />
      <nav className="places" aria-label={t("shell.places.label")}>
        {placesOf(document).map((value) => (
          <button
            key={value}
            type="button"
            aria-label={t(`shell.places.${value}`)}
            aria-current={value === place ? "page" : undefined}
            onClick={() => app.getState().setPlace(value)}
          >
            {layout === "phone" ? t(`shell.places.short.${value}`) : t(`shell.places.${value}`)}
          </button>
        ))}
      </nav>
      {layout === "wide" && <UndoButtons />}
      {layout !== "phone" && (
        <Choices label={t("shell.unit")} options={UNITS} value={unit} onChoose={app.getState().setUnit} />
      )}
      {layout !== "phone" && (
        <div className="light">
          <Choices label={t("shell.light.label")} options={THEMES} value={theme} onChoose={app.getState().setTheme} />
        </div>
      )}
    </header>
  );
}
