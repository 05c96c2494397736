import { useMemo } from "react";
import type { SceneDocument } from "../../../scene/document.ts";
import { comparedSides } from "../../../scene/measured.ts";
import type { Datum } from "../../../scene/scene.ts";
import type { Unit } from "../../store/state.ts";
import { useApp } from "../../store/useApp.ts";
import { Rich } from "../../text/Rich.tsx";
import { t } from "../../text/text.ts";
import { angleText, lengthNumber, lengthText } from "../../words/number.ts";
import { DatumChooser } from "../DatumChooser.tsx";
import type { PointInfo } from "../pointInfo.ts";
import { usePointsLook } from "../pointsStore.ts";
import { TapeDialog } from "../tape/TapeDialog.tsx";
import { datumOf } from "../usePointMove.ts";
import { RightPointRow } from "./RightPointRow.tsx";
import { sidesMeaning } from "./sidesMeaning.ts";
import "../point.css";
import "./sides.css";

/** The right side as measured on the car against the left one: point by point, and what it does to the wheels. */
export function SidesList({ infos }: { infos: readonly PointInfo[] }) {
  const document = useApp((state) => state.document);
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const datumId = usePointsLook((look) => look.datumId);
  if (!document) return null;
  if (document.sides !== "both") {
    return <p className="points-empty">{t("points.sides.oneOnly")}</p>;
  }
  const datum = datumOf(scene, datumId);
  return (
    <div className="sides-list">
      <Summary document={document} datum={datum} unit={unit} infos={infos} />
      <DatumChooser />
      <p className="fine quiet">{t("points.sides.lead")}</p>
      <ol>
        {infos.map((info) => (
          <RightPointRow key={info.name} info={info} document={document} datum={datum} unit={unit} />
        ))}
      </ol>
      <TapeDialog />
    </div>
  );
}

interface SummaryProps {
  readonly document: SceneDocument;
  readonly datum: Datum | null;
  readonly unit: Unit;
  readonly infos: readonly PointInfo[];
}

function Summary({ document, datum, unit, infos }: SummaryProps) {
  const pairs = comparedSides(document, datum);
  const meaning = useMemo(() => sidesMeaning(document), [document]);
  if (pairs.length === 0) return <p className="sides-sum">{t("points.sides.nothing")}</p>;
  const sizes = pairs.map(({ difference: { forward_mm, out_mm, up_mm } }) => Math.hypot(forward_mm, out_mm, up_mm));
  const most = Math.max(...sizes);
  const worst = pairs[sizes.indexOf(most)]!;
  const title = infos.find(({ name }) => name === worst.name)?.title ?? worst.name;
  return (
    <div className="sides-sum">
      <p>
        <Rich
          text={t("points.sides.sum", {
            measured: pairs.length,
            all: infos.length,
            point: title,
            size: lengthText(most, unit),
          })}
        />
      </p>
      {meaning ? (
        <>
          <table className="effect-table">
            <thead>
              <tr>
                <th scope="col">{t("points.sides.head")}</th>
                <th scope="col">{t("points.sides.left")}</th>
                <th scope="col">{t("points.sides.right")}</th>
                <th scope="col">{t("points.sides.apart")}</th>
              </tr>
            </thead>
            <tbody>
              <Angle name={t("points.readings.toe")} left={meaning.left.toe_deg} right={meaning.right.toe_deg} />
              <Angle
                name={t("points.readings.camber")}
                left={meaning.left.camber_deg}
                right={meaning.right.camber_deg}
              />
              <Length
                name={t("points.readings.halfTrack")}
                left={meaning.left.halfTrack_mm}
                right={meaning.right.halfTrack_mm}
                unit={unit}
              />
              <Length
                name={t("points.readings.wheelCentre")}
                left={meaning.left.wheelbaseShift_mm}
                right={meaning.right.wheelbaseShift_mm}
                unit={unit}
              />
            </tbody>
          </table>
          <p>
            <Rich text={thrustText(meaning.thrust_deg)} />
          </p>
        </>
      ) : (
        <p className="fine quiet">{t("points.sides.noMeaning")}</p>
      )}
    </div>
  );
}

function Angle({ name, left, right }: { name: string; left: number; right: number }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{angleText(left)}</td>
      <td>{angleText(right)}</td>
      <td>
        <b>{angleText(right - left, { signed: true })}</b>
      </td>
    </tr>
  );
}

function Length({ name, left, right, unit }: { name: string; left: number; right: number; unit: Unit }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{lengthNumber(left, unit)}</td>
      <td>{lengthNumber(right, unit)}</td>
      <td>
        <b>{lengthNumber(right - left, unit, { signed: true })}</b>
      </td>
    </tr>
  );
}

function thrustText(thrust_deg: number): string {
  if (Math.abs(thrust_deg) < 0.005) return t("points.sides.thrust.straight");
  return t(`points.sides.thrust.${thrust_deg > 0 ? "right" : "left"}`, { angle: angleText(Math.abs(thrust_deg)) });
}
