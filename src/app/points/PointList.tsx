import { formatLength } from "../../scene/length.ts";
import { openCar } from "../car/carStore.ts";
import { useApp } from "../store/useApp.ts";
import { listText, withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import type { PointInfo } from "./pointInfo.ts";
import { usePointsLook } from "./pointsStore.ts";
import { datumOf, holdPointOf, readPlace } from "./usePointMove.ts";

const GROUPS = ["chassis", "wheel", "powertrain", "other"] as const;

/** Every named hard point, by what it is fixed to. */
export function PointList({ infos }: { infos: readonly PointInfo[] }) {
  return (
    <>
      <div className="parts-tools">
        <button type="button" className="button" onClick={() => openCar("point")}>
          {t("car.point.button")}
        </button>
      </div>
      {infos.length === 0 && <p className="points-empty">{t("points.noPoints")}</p>}
      <PointGroups infos={infos} />
    </>
  );
}

function PointGroups({ infos }: { infos: readonly PointInfo[] }) {
  return GROUPS.map((side) => {
    const members = infos.filter((info) => info.side === side);
    if (members.length === 0) return null;
    return (
      <section key={side} className="points-group">
        <h3>
          {t(`points.groups.${side}.title`)} <small>{t(`points.groups.${side}.hint`)}</small>
        </h3>
        {members.map((info) => (
          <PointRow key={info.name} info={info} />
        ))}
      </section>
    );
  });
}

function PointRow({ info }: { info: PointInfo }) {
  const unit = useApp((state) => state.unit);
  const scene = useApp((state) => state.scene);
  const isTried = useApp((state) => state.tried?.point === info.name);
  const datumId = usePointsLook((look) => look.datumId);
  const { forward, out, up } = readPlace(info.place, datumOf(scene, datumId));
  const numbers = [forward, out, up].map((value) => formatLength(value, unit)).join(", ");
  const others = [...info.carries, ...info.followers].filter((part) => !info.title.startsWith(part));
  return (
    <button type="button" className="point-row" onClick={() => holdPointOf(info)}>
      <b>{info.title}</b>
      <span className="tabular">{numbers}</span>
      <small>
        {others.length > 0
          ? t("points.rowAlso", { point: info.name, parts: listText(others.map(withinText), "unit") })
          : info.name}
      </small>
      {isTried && <em>{t("points.notKept")}</em>}
      {info.drawnAt && <small className="bolted">{t("points.boltedUp")}</small>}
    </button>
  );
}
