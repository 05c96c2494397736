import { length } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { WantedAngles } from "../../studies/jig/inverse.ts";
import type { CorrectionOfMount } from "../../work/corrections.ts";
import { TriedHere } from "../moves/TriedHere.tsx";
import { isTriedAt, titleOf, tryPointMove } from "../moves/tryFound.ts";
import { wayText } from "../moves/wayText.ts";
import { PlainField } from "../parts/SizeField.tsx";
import { useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import { FromTold } from "./FromTold.tsx";
import { type Corrections, useCorrectionsTold, useJigLook, wantedOf } from "./jigStore.ts";

const ANGLES = ["toe_deg", "camber_deg"] as const;

/** Where must a mount go for toe and camber to be as wanted, every part as it is. */
export function RightTab({ document }: { document: SceneDocument }) {
  const look = useJigLook((state) => state.wanted);
  const told = useCorrectionsTold();
  const wanted = wantedOf(document, look);
  const set = (next: WantedAngles) => useJigLook.setState({ wanted: next });
  return (
    <>
      <p>{t("jig.right.lead")}</p>
      {ANGLES.map((angle) => {
        const value = wanted[angle];
        const { [angle]: _, ...rest } = wanted;
        const isLast = Object.keys(rest).length === 0;
        return (
          <div key={angle}>
            <label className="study-tick">
              <input
                type="checkbox"
                checked={value !== undefined}
                disabled={isLast && value !== undefined}
                onChange={(event) => set(event.target.checked ? { ...wanted, [angle]: document.wheel[angle] } : rest)}
              />
              <span>{t(`jig.right.set.${angle}`)}</span>
            </label>
            {value !== undefined && (
              <PlainField
                label={t(`jig.right.wanted.${angle}`)}
                value={value}
                unit={t("parts.fields.degrees")}
                step={0.05}
                trouble={null}
                onChange={(typed) => set({ ...wanted, [angle]: typed })}
              />
            )}
          </div>
        );
      })}
      <FromTold told={told}>{(report) => <MountsToMove report={report} />}</FromTold>
    </>
  );
}

function MountsToMove({ report: { document, mounts } }: { report: Corrections }) {
  const sorted = mounts.toSorted((one, other) => wayOf(one) - wayOf(other));
  const longest_mm = Math.max(0, ...sorted.map(wayOf).filter(Number.isFinite));
  return (
    <>
      <p className="loads-title">{t("jig.right.anyOne")}</p>
      <ol className="jig-mounts" aria-label={t("jig.right.anyOne")}>
        {sorted.map((mount) => (
          <MountToMove key={mount.point} mount={mount} document={document} longest_mm={longest_mm} />
        ))}
      </ol>
    </>
  );
}

/** Nearer than this nobody moves a mount. */
const STAYS_mm = 0.005;

interface MountToMoveProps {
  readonly mount: CorrectionOfMount;
  readonly document: SceneDocument;
  readonly longest_mm: number;
}

function MountToMove({ mount: { point, found }, document, longest_mm }: MountToMoveProps) {
  const unit = useApp((state) => state.unit);
  const isTried = useApp(({ tried }) => found !== null && isTriedAt(tried, document, point, found.by, "bolted"));
  // found for what is kept: while the document has moved on there is nothing to try
  const isCurrent = useCorrectionsTold((told) => !told.stale);
  const title = titleOf(document, point);
  if (!found) {
    return (
      <li className="jig-place">
        <p>
          <Rich text={t("jig.right.cannot", { point: title })} />
        </p>
      </li>
    );
  }
  const way_mm = length(found.by);
  if (way_mm < STAYS_mm) {
    return (
      <li className="jig-place">
        <p>
          <Rich text={t("jig.right.stays", { point: title })} />
        </p>
      </li>
    );
  }
  const way = wayText(found.by, unit);
  return (
    <li className="jig-place" data-tried={isTried}>
      <div className="move-way">
        <b className="tabular">{lengthText(way_mm, unit)}</b>
        <span className="jig-share-bar" aria-hidden="true">
          <span style={{ width: `${(100 * way_mm) / longest_mm}%` }} />
        </span>
      </div>
      <p>
        <Rich text={t("moves.pointWayStrong", { point: title, way })} />
      </p>
      {isTried ? (
        <TriedHere />
      ) : (
        <button
          type="button"
          className="button"
          disabled={!isCurrent}
          aria-label={t("jig.right.tryLabel", { point: title })}
          onClick={() => tryPointMove(document, point, found.by, "bolted")}
        >
          {t("moves.try")}
        </button>
      )}
    </li>
  );
}

function wayOf({ found }: CorrectionOfMount): number {
  return found ? length(found.by) : Number.POSITIVE_INFINITY;
}
