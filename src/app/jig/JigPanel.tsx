import { PlainField, SizeField } from "../parts/SizeField.tsx";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { angleText, lengthText } from "../words/number.ts";
import { FromTold } from "./FromTold.tsx";
import { GapsTab } from "./GapsTab.tsx";
import { type JigTab, setAsked, useJigLook, useJigTold } from "./jigStore.ts";
import { MountList } from "./MountList.tsx";
import { RightTab } from "./RightTab.tsx";
import { TogetherTab } from "./TogetherTab.tsx";
import "../corner/ledger.css";
import "../gear/gear.css";
import "../loads/loads.css";
import "../points/point.css";
import "./jig.css";

const TABS = (["mounts", "together", "gaps", "right"] as const).map((value) => ({
  value,
  name: t(`jig.tabs.${value}`),
}));

/** How exactly each mount must be placed, what all errors do together, and where a mount must go. */
export function JigPanel() {
  const tab = useJigLook((look) => look.tab);
  const document = useApp((state) => state.document);
  const told = useJigTold();
  if (!document) return null;
  return (
    <>
      <div className="loads-tabs">
        <Choices
          label={t("jig.tab")}
          options={TABS}
          value={tab}
          onChoose={(chosen: JigTab) => useJigLook.setState({ tab: chosen })}
        />
      </div>
      <div key={tab} className="loads-scroll jig-scroll">
        {tab !== "right" && <Asked />}
        {(tab === "mounts" || tab === "together") && (
          <FromTold told={told}>
            {(report) => (tab === "mounts" ? <MountList report={report} /> : <TogetherTab report={report} />)}
          </FromTold>
        )}
        {tab === "gaps" && <GapsTab document={document} />}
        {tab === "right" && <RightTab document={document} />}
        <p className="tool-note">{t("jig.caution")}</p>
      </div>
    </>
  );
}

/** What is asked for, in one line; the fields fold out of it. */
function Asked() {
  const asked = useJigLook((look) => look.asked);
  const unit = useApp((state) => state.unit);
  const degrees = t("parts.fields.degrees");
  return (
    <details className="loads-how jig-asked">
      <summary>
        {t("jig.asked", {
          toe: angleText(asked.toeWithin_deg),
          camber: angleText(asked.camberWithin_deg),
          accuracy: lengthText(asked.accuracy_mm, unit),
        })}
      </summary>
      <PlainField
        label={t("jig.fields.toe")}
        value={asked.toeWithin_deg}
        unit={degrees}
        step={0.05}
        trouble={null}
        onChange={(value) => setAsked({ toeWithin_deg: Math.max(LEAST_deg, value) })}
      />
      <PlainField
        label={t("jig.fields.camber")}
        value={asked.camberWithin_deg}
        unit={degrees}
        step={0.05}
        trouble={null}
        onChange={(value) => setAsked({ camberWithin_deg: Math.max(LEAST_deg, value) })}
      />
      <SizeField
        label={t("jig.fields.accuracy")}
        value_mm={asked.accuracy_mm}
        unit={unit}
        trouble={null}
        onChange={(value) => setAsked({ accuracy_mm: value })}
      />
      <PlainField
        label={t("jig.fields.samples")}
        value={asked.samples}
        unit={t("jig.fields.samplesNote")}
        step={100}
        isWhole
        trouble={null}
        onChange={(value) => setAsked({ samples: Math.min(MOST_SAMPLES, Math.max(10, value)) })}
      />
      <PlainField
        label={t("jig.fields.seed")}
        value={asked.seed}
        unit={t("jig.fields.seedNote")}
        step={1}
        isWhole
        trouble={null}
        onChange={(value) => setAsked({ seed: Math.max(0, value) })}
      />
    </details>
  );
}

/** No angle is wanted more exactly than it can be measured by far. */
const LEAST_deg = 0.001;
const MOST_SAMPLES = 20_000;
