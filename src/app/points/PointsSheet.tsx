import { CarList } from "../car/CarList.tsx";
import { HeldPart } from "../parts/HeldPart.tsx";
import { PartsPanel } from "../parts/PartsPanel.tsx";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { PointList } from "./PointList.tsx";
import { PointSheet } from "./PointSheet.tsx";
import { pointInfos } from "./pointInfo.ts";
import { usePointsLook } from "./pointsStore.ts";
import { SidesList } from "./sides/SidesList.tsx";
import "./points.css";

const LISTS = (["points", "parts", "sides", "car"] as const).map((value) => ({
  value,
  name: t(`points.lists.${value}`),
}));

/** The sheet of the place Points & parts: the held point, or the lists to choose from. */
export function PointsSheet() {
  const document = useApp((state) => state.document);
  const heldPoint = useApp((state) => state.heldPoint);
  const error = useApp((state) => state.error);
  const list = usePointsLook((look) => look.list);
  if (!document) return null;
  const infos = pointInfos(document);
  const held = infos.find((info) => info.name === heldPoint);
  if (held) return <PointSheet key={held.name} info={held} />;
  const lists = (
    <section className="points-sheet">
      <div className="points-head">
        <h2>{t("points.place")}</h2>
        <Choices
          label={t("points.list")}
          options={LISTS}
          value={list}
          onChoose={(chosen) => usePointsLook.setState({ list: chosen })}
        />
      </div>
      {error && (
        <p className="point-error" role="alert">
          {error.message}
        </p>
      )}
      <div className="points-scroll">
        {list === "points" && <PointList infos={infos} />}
        {list === "parts" && <PartsPanel document={document} />}
        {list === "sides" && <SidesList infos={infos} />}
        {list === "car" && <CarList document={document} />}
      </div>
    </section>
  );
  return list === "parts" ? <HeldPart document={document}>{lists}</HeldPart> : lists;
}
