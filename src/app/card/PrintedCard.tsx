import { useLayoutEffect, useRef, useState } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { usePicture } from "../log/usePicture.ts";
import { GapMark } from "../marks/GapMark.tsx";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { travelNumber } from "../words/travel.ts";
import { cardSide, checkedText, originText, pointFacts, stateText, verdictFacts, wheelReadings } from "./facts.ts";
import { PrintRule } from "./PrintRule.tsx";
import { PrintSpark } from "./PrintSpark.tsx";
import { type CardPage, cardPages } from "./pages.ts";
import { PAPER_mm, type Paper } from "./printing.ts";
import { fullWhen } from "./when.ts";

interface PrintedCardProps {
  readonly card: Card;
  readonly unit: Unit;
  readonly paper: Paper;
}

/** A job card on as many sheets as it needs, with room to write down what the car says. */
export function PrintedCard({ card, unit, paper }: PrintedCardProps) {
  const [noteFits, setNoteFits] = useState(true);
  const note = useRef<HTMLParagraphElement>(null);
  useLayoutEffect(() => {
    const box = note.current;
    if (box && box.scrollHeight > box.clientHeight + 1) setNoteFits(false);
  }, []);
  const pages = cardPages(verdictFacts(card, unit), pointFacts(card, unit), paper, noteFits);
  return pages.map((page, index) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is known by its place
    <section key={index} className="sheet">
      <BinderHoles paper={paper} />
      <SheetHead card={card} unit={unit} further={!page.first} />
      {page.first && <Picture card={card} unit={unit} />}
      {page.verdicts.length > 0 && <Verdicts card={card} unit={unit} page={page} />}
      {(page.points.length > 0 || page.first) && (
        <div className="sheet-columns">
          <Points page={page} />
          {page.first && <Wheel card={card} unit={unit} />}
        </div>
      )}
      {page.note && (
        <div className="sheet-note">
          <h3>{t("card.note")}</h3>
          <p ref={page.first ? note : undefined}>{card.note}</p>
        </div>
      )}
      {page.first && !page.note && <p className="sheet-see">{t("card.sheet.noteElsewhere", { page: pages.length })}</p>}
      <div className="sheet-foot">
        {page.first && <Stages />}
        <p className="sheet-caution">{card.caution}</p>
        <p className="sheet-origin">
          <span>{originText(card)}</span>
          <span>{t("card.sheet.foot", { number: card.number, page: index + 1, pages: pages.length })}</span>
        </p>
      </div>
    </section>
  ));
}

function SheetHead({ card, unit, further }: { card: Card; unit: Unit; further: boolean }) {
  return (
    <header className="sheet-head">
      <div>
        <p>{t("card.sheet.head", { number: card.number, scene: card.sceneTitle })}</p>
        <h1>{further ? t("card.sheet.continued", { title: card.title }) : card.title}</h1>
      </div>
      <p className="sheet-when">
        <b>{fullWhen(card.made)}</b>
        <br />
        {stateText(card, unit)}
      </p>
    </header>
  );
}

function Picture({ card, unit }: { card: Card; unit: Unit }) {
  const address = usePicture(card.picture);
  return (
    <div className="sheet-picture">
      <PrintRule card={card} side={cardSide(card)} unit={unit} height={330} />
      <div className="frame">
        {address ? <img src={address} alt={card.title} /> : <span>{t("card.sheet.noPicture")}</span>}
      </div>
    </div>
  );
}

function Verdicts({ card, unit, page }: { card: Card; unit: Unit; page: CardPage }) {
  const reach: [number, number] = [-card.range_mm.droop, card.range_mm.bump];
  return (
    <table className="sheet-verdicts">
      <caption>
        <b>{page.first ? t("card.sheet.verdicts") : t("card.sheet.verdictsContinued")}</b>
        <span>{checkedText(card, unit)}</span>
      </caption>
      <thead>
        <tr>
          <th colSpan={2} aria-label={t("card.sheet.pair")} />
          <th className="figure">{t("card.sheet.closest")}</th>
          <th className="figure">{t("card.sheet.wants")}</th>
          <th>{t("card.sheet.overTravel")}</th>
          <th>{t("card.sheet.measured")}</th>
        </tr>
      </thead>
      <tbody>
        {page.verdicts.map((fact) => (
          <tr key={fact.key}>
            <td className="mark">
              <GapMark kind={fact.mark} size={20} />
            </td>
            <td>{fact.name}</td>
            <td className="figure">
              <b>{fact.closest}</b>
            </td>
            <td className="figure">{fact.wants}</td>
            <td className="spark-cell">{fact.pair && <PrintSpark pair={fact.pair} reach_mm={reach} />}</td>
            <td className="blank">
              <span className="blank-box" />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Points({ page }: { page: CardPage }) {
  if (page.points.length === 0) return <div />;
  return (
    <table className="sheet-points">
      <caption>
        <b>{page.first ? t("card.sheet.points") : t("card.sheet.pointsContinued")}</b>
        <span>{t("card.sheet.datum")}</span>
      </caption>
      <thead>
        <tr>
          <th aria-label={t("card.sheet.point")} />
          <th className="figure">{t("card.sheet.forward")}</th>
          <th className="figure">{t("card.sheet.out")}</th>
          <th className="figure">{t("card.sheet.up")}</th>
          <th>{t("card.sheet.onCar")}</th>
        </tr>
      </thead>
      <tbody>
        {page.points.map((point) => (
          <tr key={point.name}>
            <td>
              {point.title} <small>{point.name}</small>
            </td>
            <td className="figure">{point.forward}</td>
            <td className="figure">{point.out}</td>
            <td className="figure">{point.up}</td>
            <td className="blank">
              <span className="blank-box" />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Wheel({ card, unit }: { card: Card; unit: Unit }) {
  const side = cardSide(card);
  const wheel = card.wheels.find((found) => found.side === side);
  const readings = wheel ? wheelReadings(wheel, unit) : [];
  return (
    <table className="sheet-wheel">
      <caption>
        <b>{t("card.sheet.wheel", { travel: travelNumber(card.travel_mm[side], unit) })}</b>
        <span>{t(`card.sides.${side}`)}</span>
      </caption>
      <tbody>
        {readings.length === 0 && (
          <tr>
            <td>{t("card.sheet.outOfReach")}</td>
          </tr>
        )}
        {readings.map(({ name, value }) => (
          <tr key={name}>
            <td>{name}</td>
            <td className="figure">
              <b>{value}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Stages() {
  return (
    <div className="sheet-stages">
      {(["tacked", "measured", "welded"] as const).map((stage) => (
        <div key={stage}>
          <span className="stage-box" />
          <span className="stage-line">{t(`card.sheet.stages.${stage}`)}</span>
        </div>
      ))}
    </div>
  );
}

/**
 * Where to punch. A4: two holes of 6 mm, 80 mm apart, 12 mm from the edge, centred (ISO 838, from memory). Letter: three,
 * 108 mm (4¼ in) apart (common practice, no source).
 */
function BinderHoles({ paper }: { paper: Paper }) {
  const { height } = PAPER_mm[paper];
  const apart = paper === "a4" ? [-40, 40] : [-107.95, 0, 107.95];
  return (
    <svg className="sheet-holes" viewBox={`0 0 18 ${height}`} aria-hidden="true">
      {apart.map((offset) => (
        <circle key={offset} cx="12" cy={height / 2 + offset} r="3" />
      ))}
      <path d={`M1 ${height / 2}h4`} />
    </svg>
  );
}
