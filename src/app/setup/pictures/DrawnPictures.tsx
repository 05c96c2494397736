import type { Picture } from "../../../scene/setup/question.ts";
import { t } from "../../text/text.ts";
import { Dimension } from "./Dimension.tsx";

type Drawn = Exclude<Picture, { of: "corner" | "place" }>;

/** Sketches of things on their own: what to lay the tape on. */
export function DrawnPicture({ picture }: { picture: Drawn }) {
  return (
    <svg viewBox="0 0 372 178" className="setup-picture" role="img" aria-label={t(`setup.pictures.${picture.of}`)}>
      <rect x={0.5} y={0.5} width={371} height={177} rx={4} className="panel" />
      <Sketch picture={picture} />
    </svg>
  );
}

function Sketch({ picture }: { picture: Drawn }) {
  switch (picture.of) {
    case "tyre":
      return <Tyre />;
    case "rim":
      return <Rim mark={picture.mark} />;
    case "angle":
      return <Angle mark={picture.mark} />;
    case "travel":
      return <Travel mark={picture.mark} />;
    case "tube":
      return <Tube />;
    case "box":
      return <Box mark={picture.mark} />;
    case "rock":
      return <Rock mark={picture.mark} />;
    case "damper":
      return <Damper mark={picture.mark} />;
    case "shaft":
      return <Shaft mark={picture.mark} />;
    case "gap":
      return <Gap />;
  }
}

function Tyre() {
  return (
    <>
      <circle cx={186} cy={196} r={172} className="tyre" />
      <circle cx={186} cy={196} r={108} className="steel" />
      <path id="sidewall" d="M 60 178 A 136 136 0 0 1 312 178" fill="none" />
      <text className="stamp">
        <textPath href="#sidewall" startOffset="50%" textAnchor="middle">
          205/55 R16 91W
        </textPath>
      </text>
      <circle cx={186} cy={196} r={30} className="part" />
    </>
  );
}

function Rim({ mark }: { mark: "width" | "offset" }) {
  return (
    <>
      <path
        d="M 76 30 v 12 h 12 v 14 h 60 l 12 16 h 74 l 12 -16 h 38 v -14 h 12 v -12 M 76 166 v -12 h 12 v -14 h 60 l 12 -16 h 74 l 12 -16"
        className="outline none"
      />
      <path d="M 76 24 h 12 v 18 h -12 z M 284 24 h 12 v 18 h -12 z" className="steel" />
      <path d="M 240 72 v 72 M 252 72 v 72" className="outline none" />
      <rect x={240} y={66} width={12} height={84} className="part" />
      <line x1={186} y1={18} x2={186} y2={170} className="centre-line" />
      <text x={90} y={172} className="note">
        {t("setup.drawn.towardsCar")}
      </text>
      <text x={290} y={172} textAnchor="end" className="note">
        {t("setup.drawn.outside")}
      </text>
      <Dimension
        from={[88, 50]}
        to={[284, 50]}
        label={t("setup.drawn.width")}
        isWanted={mark === "width"}
        shift={[-40, -6]}
      />
      <Dimension
        from={[186, 112]}
        to={[240, 112]}
        label={t("setup.drawn.offset")}
        isWanted={mark === "offset"}
        shift={[0, -8]}
      />
    </>
  );
}

function Angle({ mark }: { mark: "toe" | "camber" }) {
  const isToe = mark === "toe";
  return (
    <>
      {!isToe && <line x1={60} y1={158} x2={312} y2={158} className="ground" />}
      <line x1={186} y1={12} x2={186} y2={166} className="centre-line" />
      <g transform={`rotate(${isToe ? 12 : 11} 186 ${isToe ? 92 : 96})`}>
        <rect x={164} y={isToe ? 26 : 34} width={44} height={isToe ? 132 : 124} rx={9} className="tyre" />
        <line x1={186} y1={isToe ? 18 : 26} x2={186} y2={158} className="wanted-line" />
      </g>
      <path d={isToe ? "M 186 30 A 64 64 0 0 1 199 31" : "M 186 30 A 68 68 0 0 1 199 31"} className="band" />
      <text x={214} y={26} className="wanted-word">
        {t(`setup.drawn.${mark}`)}
      </text>
      <text x={24} y={96} className="note">
        {t(`setup.drawn.${mark}View`)}
      </text>
      <text x={348} y={166} textAnchor="end" className="note">
        {t("setup.drawn.carMiddle")}
      </text>
    </>
  );
}

function Travel({ mark }: { mark: "bump" | "droop" }) {
  const wheel = (y: number, isGhost: boolean) => (
    <rect x={150} y={y} width={44} height={92} rx={9} className={isGhost ? "ghost" : "tyre"} />
  );
  return (
    <>
      <line x1={40} y1={89} x2={150} y2={89} className="axle-line" />
      <text x={40} y={82} className="note">
        {t("setup.drawn.rideHeight")}
      </text>
      {wheel(mark === "bump" ? 9 : 77, true)}
      {wheel(43, false)}
      <Dimension
        from={[228, 89]}
        to={[228, mark === "bump" ? 50 : 128]}
        label={t(`setup.drawn.${mark}`)}
        isWanted
        shift={[12, 4]}
        anchor="start"
      />
      <line x1={194} y1={89} x2={240} y2={89} className="axle-line" />
    </>
  );
}

function Tube() {
  return (
    <>
      <rect x={56} y={70} width={250} height={38} className="part" />
      <circle cx={56} cy={89} r={30} className="steel" />
      <circle cx={56} cy={89} r={9} className="hole" />
      <circle cx={312} cy={89} r={27} className="steel" />
      <circle cx={312} cy={89} r={9} className="hole" />
      <Dimension
        from={[184, 70]}
        to={[184, 108]}
        label={t("setup.drawn.thickness")}
        isWanted
        shift={[10, 4]}
        anchor="start"
      />
    </>
  );
}

function Box({ mark }: { mark: "length" | "width" | "height" }) {
  return (
    <>
      <polygon points="90,62 226,34 300,66 164,98" className="steel" />
      <polygon points="90,62 164,98 164,160 90,124" className="part" />
      <polygon points="164,98 300,66 300,128 164,160" className="part" />
      <Dimension
        from={[174, 168]}
        to={[306, 137]}
        label={t("setup.drawn.length")}
        isWanted={mark === "length"}
        shift={[34, 14]}
      />
      <Dimension
        from={[84, 134]}
        to={[154, 168]}
        label={t("setup.drawn.width")}
        isWanted={mark === "width"}
        shift={[-30, 10]}
      />
      <Dimension
        from={[312, 126]}
        to={[312, 64]}
        label={t("setup.drawn.height")}
        isWanted={mark === "height"}
        shift={[10, 4]}
        anchor="start"
      />
      <text x={226} y={24} className="note">
        {t("setup.drawn.front")}
      </text>
    </>
  );
}

function Rock({ mark }: { mark: "pulling" | "overrun" }) {
  const turn = mark === "pulling" ? 1 : -1;
  const lump = (
    <>
      <rect x={116} y={58} width={116} height={62} rx={6} />
      <rect x={232} y={70} width={34} height={38} rx={5} />
    </>
  );
  return (
    <>
      <line x1={30} y1={160} x2={342} y2={160} className="ground" />
      <g className="part">{lump}</g>
      <g className="ghost" transform={`rotate(${8 * turn} 186 92)`}>
        {lump}
      </g>
      <circle cx={186} cy={92} r={5} className="hole" />
      <path
        d={turn > 0 ? "M 280 74 A 96 96 0 0 1 281 108" : "M 281 108 A 96 96 0 0 0 280 74"}
        className="band"
        markerEnd="none"
      />
      <text x={292} y={96} className="wanted-word">
        {t(`setup.drawn.${mark}`)}
      </text>
      <text x={24} y={24} className="note">
        {t("setup.drawn.rockView")}
      </text>
    </>
  );
}

function Damper({ mark }: { mark: Extract<Drawn, { of: "damper" }>["mark"] }) {
  const open = mark === "open";
  const top = open ? 336 : mark === "touches" ? 282 : mark === "solid" ? 268 : 262;
  const isLength = mark === "closed" || open || mark === "touches" || mark === "solid";
  const coils = Array.from({ length: 9 }, (_, i) => 112 + ((top - 30 - 112) * i) / 8);
  const hasSpring = mark === "spring" || mark === "rate";
  return (
    <>
      <rect x={190} y={80} width={top - 190} height={14} className="steel" />
      <rect x={44} y={64} width={156} height={46} rx={3} className="part" />
      {(mark === "touches" || mark === "solid") && (
        <rect x={202} y={70} width={top - 222} height={34} rx={6} className="rubber" />
      )}
      {[36, top].map((x) => (
        <g key={x}>
          <circle cx={x} cy={87} r={15} className="steel" />
          <circle cx={x} cy={87} r={5} className="hole" />
        </g>
      ))}
      {hasSpring && coils.map((x) => <line key={x} x1={x - 8} y1={128} x2={x + 8} y2={46} className="coil" />)}
      {isLength && (
        <Dimension from={[36, 146]} to={[top, 146]} label={t("setup.drawn.eyes")} isWanted shift={[0, -8]} />
      )}
      {mark === "body" && (
        <Dimension
          from={[90, 64]}
          to={[90, 110]}
          label={t("setup.drawn.thickness")}
          isWanted
          shift={[10, 4]}
          anchor="start"
        />
      )}
      {hasSpring && (
        <Dimension
          from={[340, 46]}
          to={[340, 128]}
          label={mark === "spring" ? t("setup.drawn.coils") : t("setup.units.N/mm")}
          isWanted
          shift={[-8, 60]}
          anchor="end"
        />
      )}
    </>
  );
}

function Shaft({ mark }: { mark: Extract<Drawn, { of: "shaft" }>["mark"] }) {
  const bend = mark === "inner" ? 10 : 0;
  const isLength = mark === "shortest" || mark === "longest";
  const inner = mark === "longest" ? 318 : mark === "shortest" ? 298 : 308;
  return (
    <>
      <rect x={74} y={81} width={inner - 74} height={14} className="part" />
      <g transform={mark === "outer" ? "rotate(14 74 88)" : undefined}>
        <rect x={40} y={58} width={44} height={60} rx={8} className="steel" />
      </g>
      <g transform={bend ? `rotate(${bend} ${inner} 88)` : undefined}>
        <rect x={290} y={56} width={46} height={64} rx={5} className="steel" />
      </g>
      <polygon points="84,66 118,78 118,98 84,110" className="rubber" />
      <polygon points={`290,66 ${256},78 ${256},98 290,110`} className="rubber" />
      <circle cx={74} cy={88} r={4} className="hole" />
      <circle cx={inner} cy={88} r={4} className="hole" />
      <text x={40} y={44} className="note">
        {t("setup.drawn.outerJoint")}
      </text>
      <text x={336} y={44} textAnchor="end" className="note">
        {t("setup.drawn.innerJoint")}
      </text>
      {isLength && (
        <Dimension from={[74, 146]} to={[inner, 146]} label={t(`setup.drawn.${mark}`)} isWanted shift={[0, -8]} />
      )}
      {mark === "diameter" && (
        <Dimension
          from={[186, 81]}
          to={[186, 95]}
          label={t("setup.drawn.thickness")}
          isWanted
          shift={[10, 30]}
          anchor="start"
        />
      )}
      {(mark === "inner" || mark === "outer") && (
        <text x={186} y={150} textAnchor="middle" className="wanted-word">
          {t("setup.drawn.bends")}
        </text>
      )}
    </>
  );
}

function Gap() {
  return (
    <>
      <rect x={40} y={36} width={112} height={106} rx={26} className="part" />
      <rect x={214} y={36} width={118} height={106} rx={26} className="tyre" />
      <Dimension from={[152, 89]} to={[214, 89]} label={t("setup.drawn.gap")} isWanted shift={[0, -9]} />
    </>
  );
}
