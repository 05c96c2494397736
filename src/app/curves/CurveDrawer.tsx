import { t } from "../text/text.ts";
import "./curves.css";
import { Menu } from "@base-ui/react/menu";
import { type ReactNode, useRef } from "react";
import { useSize } from "../shell/useSize.ts";
import { useApp } from "../store/useApp.ts";
import { travelText } from "../words/travel.ts";
import { CurvePlots } from "./CurvePlots.tsx";
import { CURVE_KINDS } from "./curveKinds.ts";
import { DrawerGrip } from "./DrawerGrip.tsx";
import { toggleCurve, useCurveChoice } from "./useCurveChoice.ts";

/** Wheel angles, track and shaft over the travel, standing on the same upright travel axis as the rules and sparks. Narrow windows put `lead` in the title's place. */
export function CurveDrawer({ lead }: { lead?: ReactNode }) {
  const place = useRef<HTMLDivElement>(null);
  const size = useSize(place);
  const height = useCurveChoice((state) => state.height);
  const tried = useApp((state) => state.tried !== null);
  return (
    <section className="curve-drawer" aria-label={t("curves.name")} style={lead ? undefined : { height }}>
      {!lead && <DrawerGrip />}
      <header className="curve-head">
        {lead ?? <h2>{t("curves.name")}</h2>}
        <LevelNote />
        <span className="curve-key">
          <KeyLine dash={null} /> {t("curves.key.left")} <KeyLine dash="5 4" /> {t("curves.key.right")}
          {tried && (
            <>
              {" "}
              <KeyLine dash={null} tried /> {t("curves.key.tried")}
            </>
          )}
        </span>
        <MoreCurves />
      </header>
      <div className="curve-place" ref={place}>
        {size && <CurvePlots width={size.width} height={size.height} />}
      </div>
    </section>
  );
}

function LevelNote() {
  const travel = useApp((state) => state.travel_mm);
  const sides = useApp((state) => state.scene?.sides);
  const unit = useApp((state) => state.unit);
  const first = travel[sides?.[0] ?? "left"];
  const apart = sides?.length === 2 && travel.left !== travel.right;
  const told = apart
    ? t("curves.level.two", { left: travelText(travel.left, unit), right: travelText(travel.right, unit) })
    : t("curves.level.one", { travel: travelText(first, unit) });
  return <span className="curve-note">{told}</span>;
}

function KeyLine({ dash, tried = false }: { dash: string | null; tried?: boolean }) {
  return (
    <svg width="26" height="8" aria-hidden="true">
      <path
        d="M0 4h26"
        stroke={tried ? "var(--tried-text)" : "var(--ink)"}
        strokeWidth="2.2"
        strokeDasharray={dash ?? undefined}
      />
    </svg>
  );
}

function MoreCurves() {
  const shown = useCurveChoice((state) => state.shown);
  return (
    <Menu.Root>
      <Menu.Trigger className="button more-curves">{t("curves.choose")}</Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner sideOffset={6} align="end" className="menu-place">
          <Menu.Popup className="menu">
            {CURVE_KINDS.map(({ id, name, meaning }) => (
              <Menu.CheckboxItem
                key={id}
                className="menu-item"
                checked={shown.includes(id)}
                onCheckedChange={() => toggleCurve(id)}
                closeOnClick={false}
              >
                <span className="menu-tick" aria-hidden="true">
                  {shown.includes(id) ? "✓" : ""}
                </span>
                <span>
                  {name}
                  <small>{meaning}</small>
                </span>
              </Menu.CheckboxItem>
            ))}
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}
