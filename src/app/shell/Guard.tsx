import { Component, type ReactNode } from "react";
import { saveSceneFile } from "../files/sceneFiles.ts";
import { desk } from "../projects/theDesk.ts";
import { t } from "../text/text.ts";

interface GuardProps {
  readonly children: ReactNode;
  /** Takes the broken piece away, where the page does without it. */
  onClose?(): void;
}

/**
 * Stands around a piece of the page whose program comes when it is wanted, and around the whole: a piece that breaks, or whose program
 * the server no longer has (a new version was put there), says so in its place, and the rest of the page goes on.
 */
export class Guard extends Component<GuardProps, { readonly error: unknown }> {
  override state = { error: null };

  static getDerivedStateFromError(error: unknown): { error: unknown } {
    return { error: error ?? new Error() };
  }

  override render(): ReactNode {
    const { children, onClose } = this.props;
    const { error } = this.state;
    if (error === null) return children;
    return (
      <div className="broken" role="alert">
        <p>
          <b>{t("shell.broken.title")}</b>
        </p>
        <p>{isNotFetched(error) ? t("shell.broken.notFetched") : t("shell.broken.brokeOff", { why: String(error) })}</p>
        <div className="broken-buttons">
          <button type="button" className="button" onClick={() => void loadAnew()}>
            {t("shell.broken.anew")}
          </button>
          <button type="button" className="button" onClick={() => void saveSceneFile()}>
            {t("shell.saved.saveFile")}
          </button>
          {onClose && (
            <button
              type="button"
              className="button"
              onClick={() => {
                onClose();
                this.setState({ error: null });
              }}
            >
              {t("shell.broken.close")}
            </button>
          )}
        </div>
      </div>
    );
  }
}

/** Each browser has its own words for a program that is not to be had, and the loader its own for a sheet. */
function isNotFetched(error: unknown): boolean {
  return error instanceof Error && /import|module|preload/i.test(error.message);
}

/** Not while something is on this page only; that is told in the page's own line. */
async function loadAnew(): Promise<void> {
  if (await desk.isSafe()) location.reload();
}
