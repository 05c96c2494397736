import { useMemo } from "react";
import type { LimitVerdict } from "../../check/result.ts";
import type { BoltPull } from "../../loads/boltPull.ts";
import type { Scene } from "../../scene/scene.ts";
import type { AtTravel, JointStudy, LinkStudy } from "../../studies/runningGear/joints.ts";
import type { GearReport, SideGear } from "../../work/gearReport.ts";
import { openForm } from "../loads/formsStore.ts";
import { caseText, partText } from "../loads/partNames.ts";
import { forceText } from "../loads/quantity.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { Choices } from "../shell/Choices.tsx";
import { app, useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { angleText } from "../words/number.ts";
import { travelText } from "../words/travel.ts";
import { Ask, Notes, Past } from "./gearPieces.tsx";
import { openGearForm, useGearLook } from "./gearStore.ts";

const LIMITS = ["joint-tilt", "joint-twist"] as const;
const NOTES = (["tilt", "twist", "crooked", "pull"] as const).map((note) => t(`gear.notes.joints.${note}`));

interface JointsTabProps {
  readonly scene: Scene;
  readonly report: GearReport;
}

/** Every ball, rod end and bush of one side: how far it tilts and turns against what it may, and how its bolt is pulled. */
export function JointsTab({ scene, report }: JointsTabProps) {
  const wanted = useGearLook((look) => look.side);
  const gear = report.sides.find(({ side }) => side === wanted) ?? report.sides[0]!;
  const { joints, links } = gear.joints;
  const told = joints.filter(({ fit }) => fit !== null);
  const untold = joints.filter(({ fit }) => fit === null);
  return (
    <>
      <Past report={report} limits={LIMITS} clear={t("gear.joints.clear")} />
      {report.sides.length === 2 && (
        <Choices
          label={t("gear.side")}
          options={report.sides.map(({ side }) => ({ value: side, name: t(`gear.sides.${side}`) }))}
          value={gear.side}
          onChoose={(side) => useGearLook.setState({ side })}
        />
      )}
      {told.length > 0 && (
        <ul className="screen-list" aria-label={t("gear.joints.list")}>
          {told.map((study) => (
            <li key={study.joint}>
              <JointRow study={study} gear={gear} scene={scene} />
            </li>
          ))}
          {links.map((link) => (
            <li key={link.member}>
              <LinkRow link={link} gear={gear} scene={scene} />
            </li>
          ))}
        </ul>
      )}
      {told.length > 0 && gear.pulls === null && (
        <Ask text={t("gear.joints.askMass")} go={t("gear.spring.tellMass")} form={() => openForm({ what: "basics" })} />
      )}
      {untold.length > 0 && (
        <>
          <h3>{t("gear.joints.untold")}</h3>
          <p className="tool-note">{t("gear.joints.untoldLead")}</p>
          <ul className="missing-list" aria-label={t("gear.joints.untold")}>
            {untold.map(({ joint }) => (
              <li key={joint}>
                {partText(joint, scene)}
                <button
                  type="button"
                  className="button"
                  aria-label={t("gear.joints.tellOne", { joint: partText(joint, scene) })}
                  onClick={() => openGearForm({ what: "joint", joint })}
                >
                  {t("gear.joints.tell")}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <Notes notes={NOTES} />
    </>
  );
}

interface RowProps {
  readonly study: JointStudy;
  readonly gear: SideGear;
  readonly scene: Scene;
}

function JointRow({ study, gear, scene }: RowProps) {
  const unit = useApp((state) => state.unit);
  const isOpen = useGearLook((look) => look.openJoint === study.joint);
  const { joint, fit, tilt_deg, twist_deg } = study;
  const verdicts = useMemo(() => gear.limits.filter((limit) => limit.joint === joint), [gear, joint]);
  const isPast = verdicts.some(({ verdict }) => verdict === "clash");
  const where = tilt_deg ? travelText(tilt_deg.travel_mm, unit) : "";
  const limit =
    fit?.tilt_deg == null ? t("gear.joints.noLimit") : t("gear.joints.ofLimit", { limit: deg(fit.tilt_deg) });
  return (
    <>
      <button
        type="button"
        className="screen-row joint-row"
        data-past={isPast}
        aria-expanded={isOpen}
        onClick={() => useGearLook.setState({ openJoint: isOpen ? null : joint })}
      >
        <JointMark verdicts={verdicts} />
        <span className="screen-words">
          {partText(joint, scene)}
          <small>
            {tilt_deg && twist_deg
              ? t("gear.joints.row", {
                  kind: t(`gear.kinds.${fit!.kind}`),
                  tilt: deg(reached(verdicts, tilt_deg)),
                  limit,
                  where,
                })
              : t(`gear.kinds.${fit!.kind}`)}
          </small>
        </span>
      </button>
      {isOpen && <JointDetails study={study} gear={gear} scene={scene} />}
    </>
  );
}

/** With the bracket as crooked as it may stand, where that is judged. */
function reached(verdicts: readonly LimitVerdict[], tilt_deg: AtTravel): number {
  return verdicts.find(({ what }) => what === "joint-tilt")?.value ?? tilt_deg.value;
}

function JointMark({ verdicts }: { verdicts: readonly LimitVerdict[] }) {
  const isPast = verdicts.some(({ verdict }) => verdict === "clash");
  if (verdicts.length === 0) return <span className="quiet">–</span>;
  return (
    <span className="joint-mark">
      <GapMark kind={isPast ? "limit" : "clear"} size={22} />
      <span className="unseen">{t(`gear.joints.verdicts.${isPast ? "past" : "clear"}`)}</span>
    </span>
  );
}

function JointDetails({ study, gear, scene }: RowProps) {
  const unit = useApp((state) => state.unit);
  const { joint, fit, tiltAtRide_deg, tilt_deg, twist_deg } = study;
  const { side, pulls } = gear;
  const pull = pulls?.find((one) => one.joint === joint) ?? null;
  const go = ({ travel_mm }: AtTravel) => app.getState().setTravel(side, travel_mm);
  return (
    <div className="screen-details joint-details">
      {tilt_deg && tiltAtRide_deg !== null && (
        <p className="load-go">
          <span>
            {t("gear.joints.tilt", {
              ride: deg(tiltAtRide_deg),
              most: deg(tilt_deg.value),
              where: travelText(tilt_deg.travel_mm, unit),
            })}
          </span>
          <GoButton onGo={() => go(tilt_deg)} />
        </p>
      )}
      {fit!.crooked_deg > 0 && tilt_deg && (
        <p>
          {t("gear.joints.crooked", {
            crooked: deg(fit!.crooked_deg),
            sum: deg(tilt_deg.value + fit!.crooked_deg),
          })}
        </p>
      )}
      {twist_deg && (
        <p className="load-go">
          <span>
            {t(`gear.joints.${fit!.twist_deg === null ? "turn" : "twist"}`, {
              most: deg(Math.abs(twist_deg.value)),
              where: travelText(twist_deg.travel_mm, unit),
              limit: deg(fit!.twist_deg ?? 0),
            })}
          </span>
          <GoButton onGo={() => go(twist_deg)} />
        </p>
      )}
      {pull && <Pull pull={pull} scene={scene} />}
      {pull && pull.planes === null && (
        <Ask
          text={t("gear.joints.askShear")}
          go={t("gear.joints.tellBolt")}
          form={() => openForm({ what: "bolts", of: joint })}
        />
      )}
      <button type="button" className="button" onClick={() => openGearForm({ what: "joint", joint })}>
        {t("gear.joints.change")}
      </button>
    </div>
  );
}

function GoButton({ onGo }: { onGo(): void }) {
  return (
    <button type="button" className="button plain" onClick={onGo}>
      {t("loads.details.go")}
    </button>
  );
}

function Pull({ pull, scene }: { pull: BoltPull; scene: Scene }) {
  const unit = useApp((state) => state.unit);
  const { along_N, across_N, angle_deg, planes, at } = pull;
  const shear = planes === null ? "untold" : planes === 1 ? "single" : "double";
  return (
    <p>
      <Rich
        text={t("gear.joints.pull", {
          angle: angleText(angle_deg, { digits: 0 }),
          along: forceText(along_N, unit),
          across: forceText(across_N, unit),
          case: caseText(at.case, scene.loads.cases === null),
          where: travelText(at.travel_mm, unit),
          shear: t(`gear.joints.shear.${shear}`),
        })}
      />
    </p>
  );
}

/** A link between two rod ends spins until both share what their bolts turn against each other. */
function LinkRow({ link, gear, scene }: { link: LinkStudy; gear: SideGear; scene: Scene }) {
  const unit = useApp((state) => state.unit);
  const { member, twist_deg, room_deg } = link;
  const verdicts = gear.limits.filter(({ what, joint }) => what === "joint-twist" && joint === member);
  return (
    <div className="screen-row joint-row">
      <JointMark verdicts={verdicts} />
      <span className="screen-words">
        {nameOf(member, scene)}
        <small>
          {t("gear.joints.link", {
            turn: deg(Math.abs(twist_deg.value)),
            where: travelText(twist_deg.travel_mm, unit),
            room: deg(room_deg),
          })}
        </small>
      </span>
    </div>
  );
}

function deg(value_deg: number): string {
  return angleText(value_deg, { digits: 1 });
}
