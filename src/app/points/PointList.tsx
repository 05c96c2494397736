import { formatLength } from "../../scene/length.ts";
import { openCar } from "../car/carStore.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import type { PointInfo } from "./pointInfo.ts";
import { usePointsLook } from "./pointsStore.ts";
import { datumOf, holdPointOf, readPlace } from "./usePointMove.ts";

const GROUPS = [
  { side: "chassis", title: "On the chassis", hint: "cut to suit or bolt up" },
  { side: "wheel", title: "On the wheel side", hint: "cut to suit" },
  { side: "powertrain", title: "On the powertrain", hint: "cut to suit" },
  { side: "other", title: "Others", hint: "brackets and shapes hang on them" },
] as const;

/** Every named hard point, by what it is fixed to. */
export function PointList({ infos }: { infos: readonly PointInfo[] }) {
  return (
    <>
      <div className="parts-tools">
        <button type="button" className="button" onClick={() => openCar("point")}>
          {t("car.point.button")}
        </button>
      </div>
      {infos.length === 0 && <p className="points-empty">This scene names no hard points.</p>}
      <PointGroups infos={infos} />
    </>
  );
}

function PointGroups({ infos }: { infos: readonly PointInfo[] }) {
  return GROUPS.map(({ side, title, hint }) => {
    const members = infos.filter((info) => info.side === side);
    if (members.length === 0) return null;
    return (
      <section key={side} className="points-group">
        <h3>
          {title} <small>{hint}</small>
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
        {info.name}
        {others.length > 0 && `; also ${others.join(", ").toLowerCase()}`}
      </small>
      {isTried && <em>not kept yet</em>}
      {info.drawnAt && <small className="bolted">bolted up</small>}
    </button>
  );
}
