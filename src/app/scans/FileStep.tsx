import { StageBar } from "./StageBar.tsx";
import { chooseScanFile, stopReading, takeScanFile } from "./scanActions.ts";
import { useScan } from "./scanStore.ts";
import { stageText } from "./words.ts";

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
          <p>
            A mesh of up to two million triangles: STL, OBJ, PLY or GLB. It stays on this machine. Thin out anything
            larger in the scanner's own program.
          </p>
          <p className="quiet">
            Hand scanners stretch at the size of a car, and a phone's depth camera is good for floor plans: check a
            length you know by tape.
          </p>
          <button type="button" className="button go" onClick={() => void chooseScanFile()}>
            Choose a file…
          </button>
        </>
      ) : (
        <div role="status">
          <p>
            <b>{file?.name}</b> {stageText(stage)}
          </p>
          <StageBar />
          <p>
            <button type="button" className="button" onClick={stopReading}>
              Stop
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
