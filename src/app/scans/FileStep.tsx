import { t } from "../text/text.ts";
import { StageBar } from "./StageBar.tsx";
import { chooseScanFile, stopReading, takeScanFile } from "./scanActions.ts";
import { useScan } from "./scanStore.ts";

/** Where the file comes from, and how far its reading has come. */
export function FileStep() {
  const { stage, file, trouble } = useScan();
  return (
    <div
      className="scan-file"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        event.stopPropagation();
        const [dropped] = event.dataTransfer.files;
        if (dropped) void takeScanFile(dropped);
      }}
    >
      {stage === null ? (
        <>
          <p>{t("scans.file.what")}</p>
          <p className="quiet">{t("scans.file.stretch")}</p>
          <button type="button" className="button go" onClick={() => void chooseScanFile()}>
            {t("scans.file.choose")}
          </button>
        </>
      ) : (
        <div role="status">
          <p>
            <b>{file?.name}</b> {t(`scans.stages.${stage}`)}
          </p>
          <StageBar />
          <p>
            <button type="button" className="button" onClick={stopReading}>
              {t("scans.stop")}
            </button>
          </p>
        </div>
      )}
      {trouble && (
        <p className="point-error" role="alert">
          {trouble}
        </p>
      )}
    </div>
  );
}
