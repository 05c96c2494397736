import type { JigMount, JigResult } from "../../studies/jig/jig.ts";
import { DIRECTIONS, type Direction } from "../../studies/jig/sensitivity.ts";
import { titleOf } from "../moves/tryFound.ts";
import { SizeField } from "../parts/SizeField.tsx";
import { useApp } from "../store/useApp.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { angleText, lengthNumber, lengthText } from "../words/number.ts";
import { careBars } from "./care.ts";
import { setAsked, useJigLook } from "./jigStore.ts";

/** Every mount, the one that deserves most care first: how much of what is asked an error of the builder's own uses up. */
export function MountList({ report }: { report: JigResult }) {
  const accuracy_mm = useJigLook((look) => look.asked.accuracy_mm);
  const unit = useApp((state) => state.unit);
  const bars = careBars(report.mounts, accuracy_mm);
  if (report.mounts.length === 0) return <p>{t("jig.noMounts")}</p>;
  return (
    <>
      <p className="tool-note">{t("jig.key", { accuracy: lengthText(accuracy_mm, unit) })}</p>
      <ol className="jig-mounts" aria-label={t("jig.ranked")}>
        {report.mounts.map((mount) => (
          <MountRow key={mount.point} mount={mount} full={bars.full} shares={bars.of(mount)} />
        ))}
      </ol>
    </>
  );
}

interface MountRowProps {
  readonly mount: JigMount;
  /** Where on the bars all of what is asked is used up, 0 to 1. */
  readonly full: number;
  readonly shares: Readonly<Record<Direction, number>>;
}

function MountRow({ mount, full, shares }: MountRowProps) {
  const { point, within_mm, closest_mm, wantsAdjuster } = mount;
  const document = useApp((state) => state.document);
  const unit = useApp((state) => state.unit);
  const isOpen = useJigLook((look) => look.openMount === point);
  const accuracy_mm = useJigLook((look) => look.asked.accuracy_mm);
  const title = document ? titleOf(document, point) : point;
  const tight = DIRECTIONS.filter((direction) => (within_mm[direction] ?? Infinity) < accuracy_mm);
  return (
    <li data-tight={wantsAdjuster}>
      <button
        type="button"
        className="jig-mount"
        aria-expanded={isOpen}
        onClick={() => useJigLook.setState({ openMount: isOpen ? null : point })}
      >
        <b>{title}</b>
        <small>
          {closest_mm === null
            ? t("jig.hardly")
            : t(`jig.closest.${wantsAdjuster ? "tight" : "fine"}`, { within: lengthText(closest_mm, unit) })}
        </small>
        <span className="jig-bars">
          {DIRECTIONS.map((direction) => (
            <span key={direction} className="jig-bar-row">
              <span>{t(`jig.directions.${direction}`)}</span>
              <span className="jig-bar" aria-hidden="true">
                <span
                  data-over={shares[direction] > full}
                  style={{ width: `${Math.max(1, 100 * shares[direction])}%` }}
                />
                <i style={{ left: `${100 * full}%` }} />
              </span>
              <span className="tabular">{withinText(within_mm[direction], unit)}</span>
            </span>
          ))}
        </span>
      </button>
      {isOpen && (
        <div className="jig-details">
          <table className="gear-table">
            <caption className="unseen">{t("jig.rates", { point: title })}</caption>
            <thead>
              <tr>
                <td>{t("jig.perMm")}</td>
                {(["toe", "camber", "halfTrack", "wheelbase"] as const).map((reading) => (
                  <th key={reading} scope="col">
                    {t(`jig.readings.${reading}`)}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {DIRECTIONS.map((direction) => {
                const rates = mount.perMm[direction];
                return (
                  <tr key={direction}>
                    <th scope="row">{t(`jig.ways.${direction}`)}</th>
                    <td className="tabular">{angleText(rates.toe_deg, { digits: 3, signed: true })}</td>
                    <td className="tabular">{angleText(rates.camber_deg, { digits: 3, signed: true })}</td>
                    <td className="tabular">{lengthNumber(rates.halfTrack_mm, "mm", { digits: 2, signed: true })}</td>
                    <td className="tabular">
                      {lengthNumber(rates.wheelbaseShift_mm, "mm", { digits: 2, signed: true })}
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
          {tight.length > 0 && (
            <p className="gear-caution">
              {t("jig.advice", { ways: listText(tight.map((direction) => t(`jig.directions.${direction}`))) })}
            </p>
          )}
          <SizeField
            label={t("jig.fields.tolerance")}
            value_mm={mount.tolerance_mm}
            unit={unit}
            trouble={null}
            onChange={(value) =>
              setAsked({ tolerance_mm: { ...useJigLook.getState().asked.tolerance_mm, [point]: value } })
            }
          />
        </div>
      )}
    </li>
  );
}

function withinText(within_mm: number | null, unit: "mm" | "in"): string {
  return within_mm === null ? t("jig.any") : `± ${lengthText(within_mm, unit)}`;
}
