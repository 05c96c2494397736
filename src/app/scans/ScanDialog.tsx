import { Dialog } from "@base-ui/react/dialog";
import { useEffect, useRef, useState } from "react";
import { useApp } from "../store/useApp.ts";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { FaultsStep } from "./FaultsStep.tsx";
import { FileStep } from "./FileStep.tsx";
import { FitStep } from "./FitStep.tsx";
import { PartStep } from "./PartStep.tsx";
import { PlaceStep } from "./PlaceStep.tsx";
import { ScanView } from "./ScanView.tsx";
import { StageBar } from "./StageBar.tsx";
import { bringIn, closeScan, stopReading } from "./scanActions.ts";
import { type ScanStep, STEPS, useScan } from "./scanStore.ts";
import { ThinStep } from "./ThinStep.tsx";
import "../parts/parts.css";
import "./scans.css";

/** Brings a scan into the scene, or changes one that is there: one step of the document at the end. */
export function ScanDialog() {
  const { step, editing, look, stage, trouble, file } = useScan();
  const title = editing === null ? t("scans.bringIn") : t("scans.scanOf", { name: editing });
  const isReading = look === null;
  return (
    <Dialog.Root open onOpenChange={(wanted) => !wanted && closeScan()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog scan-dialog" data-step={step}>
          <div className="scan-head">
            <Dialog.Title>{title}</Dialog.Title>
            {look && <StepTabs step={step} isNew={editing === null} />}
          </div>
          {step === "file" ? (
            <FileStep />
          ) : (
            <div className="scan-columns">
              <div className="scan-work">
                {stage !== null && stage !== "thinning" && (
                  <div role="status" className="scan-busy">
                    <p>
                      {isReading && <b>{file?.name} </b>}
                      {t(`scans.stages.${stage}`)}
                    </p>
                    <StageBar />
                    <button type="button" className="button" onClick={stopReading}>
                      {t("scans.stop")}
                    </button>
                  </div>
                )}
                {trouble && (
                  <p className="point-error" role="alert">
                    {trouble}
                  </p>
                )}
                <StepBody step={step} />
              </div>
              {look && <ScanView />}
            </div>
          )}
          <Foot step={step} />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function StepBody({ step }: { step: ScanStep }) {
  switch (step) {
    case "file":
      return <FileStep />;
    case "faults":
      return <FaultsStep />;
    case "place":
      return <PlaceStep />;
    case "fit":
      return <FitStep />;
    case "thin":
      return <ThinStep />;
    case "part":
      return <PartStep />;
  }
}

function goTo(step: ScanStep): void {
  const shown = step === "part" || step === "fit" ? "both" : "scan";
  useScan.setState({ step, picking: null, trouble: null, shown });
}

function StepTabs({ step, isNew }: { step: ScanStep; isNew: boolean }) {
  const tabs = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the tab of the step that has come is brought in sight
  useEffect(() => {
    tabs.current?.querySelector('[aria-current="step"]')?.scrollIntoView({ inline: "center", block: "nearest" });
  }, [step]);
  return (
    <nav ref={tabs} className="scan-steps" aria-label={t("scans.stepsLabel")}>
      {STEPS.filter((each) => isNew || each !== "file").map((each) => (
        <button
          key={each}
          type="button"
          aria-current={each === step ? "step" : undefined}
          onClick={() => each !== "file" && goTo(each)}
          disabled={each === "file"}
        >
          {t(`scans.steps.${each}`)}
        </button>
      ))}
    </nav>
  );
}

function Foot({ step }: { step: ScanStep }) {
  const { look, stage, editing, id } = useScan();
  const hasDocument = useApp((state) => state.document !== null);
  const [refused, setRefused] = useState<string | null>(null);
  const at = STEPS.indexOf(step);
  const next = STEPS[at + 1];
  const before = step === "faults" || step === "file" ? undefined : STEPS[at - 1];
  const name = (editing ?? id.trim()) || t("scans.unnamed");
  const go = async () => setRefused(await bringIn(t(`scans.edit.${editing === null ? "bringIn" : "scan"}`, { name })));
  const isReady = look !== null && stage === null;
  return (
    <>
      {refused && step === "part" && (
        <p className="point-error" role="alert">
          {refused}
        </p>
      )}
      <div className="dialog-buttons">
        <Dialog.Close className="button plain">{t("scans.leave")}</Dialog.Close>
        {before && (
          <button type="button" className="button" onClick={() => goTo(before)}>
            {t("scans.back")}
          </button>
        )}
        {step === "part" ? (
          <button type="button" className="button go" disabled={!isReady || !hasDocument} onClick={() => void go()}>
            {editing === null ? t("scans.bringItIn") : t("scans.keep")}
          </button>
        ) : (
          next &&
          step !== "file" && (
            <button type="button" className="button go" disabled={!isReady} onClick={() => goTo(next)}>
              {t("scans.next", { step: withinText(t(`scans.steps.${next}`)) })}
            </button>
          )
        )}
      </div>
    </>
  );
}
