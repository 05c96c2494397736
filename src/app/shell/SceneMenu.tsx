import { Menu } from "@base-ui/react/menu";
import { useFilePlace } from "../files/filePlace.ts";
import { openSceneFile, saveSceneFile, saveSceneFileAs } from "../files/sceneFiles.ts";
import { showPaper } from "../paper/paperStore.ts";
import { showProjects, showSteps } from "../projects/dialogs.ts";
import { openSample, SAMPLES } from "../projects/samples.ts";
import { desk, useDesk } from "../projects/theDesk.ts";
import { useSampleTitles } from "../projects/useSampleTitles.ts";
import { takeUp } from "../setup/answering.ts";
import { showBegin } from "../setup/setupStore.ts";
import { app, useApp, useHistory } from "../store/useApp.ts";
import { LANGUAGES, type Language } from "../text/languages.ts";
import { chosenLanguage, keepLanguage, t } from "../text/text.ts";
import { canStayAwake, useAwakeRefused } from "./awake.ts";
import { showCautions } from "./cautions.ts";
import { showKeys } from "./keys.ts";
import { SavedLine } from "./SavedLine.tsx";
import type { Layout } from "./useLayout.ts";

/** The open scene's name, and what can be done with scenes as a whole. */
export function SceneMenu({ layout }: { layout: Layout }) {
  const title = useApp((state) => state.document?.title ?? null);
  return (
    <Menu.Root>
      <Menu.Trigger
        className="scene-button"
        aria-label={title ? t("shell.menu.sceneOf", { title }) : t("shell.menu.scene")}
      >
        <b>{title ?? t("shell.menu.noScene")}</b>
        <SavedLine layout={layout} />
      </Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner sideOffset={6} align="start" className="menu-place">
          <Menu.Popup className="menu">
            <ProjectItems />
            <FileItems />
            <SampleItems />
            {layout !== "wide" && <NarrowItems phone={layout === "phone"} />}
            <div className="menu-line" />
            <AwakeItem />
            <LanguageItems />
            <Menu.Item className="menu-item" onClick={showKeys}>
              {t("shell.menu.keys")} <kbd className="key quiet">?</kbd>
            </Menu.Item>
            <Menu.Item className="menu-item" onClick={showCautions}>
              {t("shell.menu.cautions")}
            </Menu.Item>
            <Menu.LinkItem className="menu-item" href="./third-party.txt" target="_blank" rel="noopener" closeOnClick>
              {t("shell.menu.licences")}
            </Menu.LinkItem>
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}

function ProjectItems() {
  const count = useDesk((state) => state.list.filter(({ deleted_ms }) => deleted_ms === null).length);
  const hasSetup = useApp((state) => state.document?.setup !== undefined);
  const isClosed = useApp((state) => state.document?.setup?.closed === true);
  return (
    <Menu.Group>
      <Menu.Item className="menu-item" onClick={showProjects}>
        {t("shell.menu.projects")} {count > 1 && <span className="quiet">{count}</span>}
      </Menu.Item>
      <Menu.Item className="menu-item" onClick={showSteps}>
        {t("shell.menu.steps")}
      </Menu.Item>
      <Menu.Item className="menu-item" onClick={showBegin}>
        {t("shell.menu.begin")}
      </Menu.Item>
      {hasSetup && (
        <Menu.Item className="menu-item" onClick={takeUp}>
          {t("shell.menu.setup")}{" "}
          <span className="quiet">{t(`shell.menu.setupState.${isClosed ? "closed" : "open"}`)}</span>
        </Menu.Item>
      )}
      <div className="menu-line" />
    </Menu.Group>
  );
}

function FileItems() {
  const isOpen = useApp((state) => state.document !== null);
  const file = useFilePlace((state) => state.name);
  return (
    <Menu.Group>
      <Menu.Item className="menu-item" onClick={() => void openSceneFile()}>
        {t("shell.menu.open")}
      </Menu.Item>
      {file && (
        <Menu.Item className="menu-item" disabled={!isOpen} onClick={() => void saveSceneFile()}>
          <span>{t("shell.menu.saveTo", { file })}</span> <SaveKey />
        </Menu.Item>
      )}
      <Menu.Item className="menu-item" disabled={!isOpen} onClick={() => void saveSceneFileAs()}>
        {t("shell.menu.saveAs")} {!file && <SaveKey />}
      </Menu.Item>
      <Menu.Item className="menu-item" disabled={!isOpen} onClick={() => showPaper()}>
        {t("shell.menu.paper")}
      </Menu.Item>
      <div className="menu-line" />
    </Menu.Group>
  );
}

function SaveKey() {
  return <kbd className="key quiet">{t("shell.keys.press.save")}</kbd>;
}

function SampleItems() {
  const open = useApp((state) => state.fileName);
  const titles = useSampleTitles();
  if (SAMPLES.length === 0) return null;
  return (
    <Menu.Group>
      <Menu.GroupLabel className="menu-label">{t("shell.menu.samples")}</Menu.GroupLabel>
      {SAMPLES.map((sample, i) => (
        <Menu.Item key={sample.fileName} className="menu-item" onClick={() => void openSample(sample)}>
          <span>{titles[i]}</span>
          {sample.fileName === open && <span className="quiet">{t("shell.menu.isOpen")}</span>}
        </Menu.Item>
      ))}
    </Menu.Group>
  );
}

function AwakeItem() {
  const stayAwake = useApp((state) => state.stayAwake);
  const refused = useAwakeRefused((state) => state.refused);
  const now = !stayAwake ? "off" : refused ? "refused" : "on";
  if (!canStayAwake()) return null;
  return (
    <Menu.CheckboxItem
      className="menu-item"
      checked={stayAwake}
      onCheckedChange={(wanted) => app.getState().setStayAwake(wanted)}
    >
      {t("shell.menu.awake")} <span className="quiet">{t(`shell.menu.awakeState.${now}`)}</span>
    </Menu.CheckboxItem>
  );
}

/** The page is loaded anew in the language, but not while something is on this page only. */
async function speak(language: Language): Promise<void> {
  if (!(await desk.isSafe())) return;
  keepLanguage(language);
  location.reload();
}

function LanguageItems() {
  const trying = useApp((state) => state.tried !== null || state.triedEdit !== null);
  return (
    <Menu.RadioGroup value={chosenLanguage()} disabled={trying} onValueChange={(language) => void speak(language)}>
      <Menu.GroupLabel className="menu-label">
        {t("shell.language")} {trying && <span className="quiet">{t("shell.languageWaits")}</span>}
      </Menu.GroupLabel>
      {LANGUAGES.map(({ value, name }) => (
        <Menu.RadioItem key={value} className="menu-item" value={value}>
          {/* in its own language and script, whatever the page speaks */}
          <span lang={value}>{name}</span>{" "}
          {value === chosenLanguage() && <span className="quiet">{t("shell.chosen")}</span>}
        </Menu.RadioItem>
      ))}
    </Menu.RadioGroup>
  );
}

/** What the wide top bar shows outright. */
function NarrowItems({ phone }: { phone: boolean }) {
  const { undo, redo } = useHistory();
  const unit = useApp((state) => state.unit);
  const theme = useApp((state) => state.theme);
  return (
    <Menu.Group>
      <Menu.GroupLabel className="menu-label">{t("shell.menu.page")}</Menu.GroupLabel>
      <Menu.Item className="menu-item" disabled={undo === null} onClick={() => app.getState().undo()}>
        {undo ? t("shell.history.undoOf", { step: undo }) : t("shell.history.undo")}
      </Menu.Item>
      <Menu.Item className="menu-item" disabled={redo === null} onClick={() => app.getState().redo()}>
        {redo ? t("shell.history.redoOf", { step: redo }) : t("shell.history.redo")}
      </Menu.Item>
      <Menu.Item
        className="menu-item"
        onClick={() => app.getState().setTheme(theme === "garage" ? "daylight" : "garage")}
      >
        {t(`shell.menu.toLight.${theme === "garage" ? "daylight" : "garage"}`)}
      </Menu.Item>
      {phone && (
        <Menu.Item className="menu-item" onClick={() => app.getState().setUnit(unit === "mm" ? "in" : "mm")}>
          {t(`shell.menu.toUnit.${unit === "mm" ? "in" : "mm"}`)}
        </Menu.Item>
      )}
    </Menu.Group>
  );
}
