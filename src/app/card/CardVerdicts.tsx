import type { Card } from "../../buildlog/entry.ts";
import { GapMark } from "../marks/GapMark.tsx";
import type { Unit } from "../store/state.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { cardSide, checkedText, pointFacts, stateText, verdictFacts, wheelReadings } from "./facts.ts";

interface CardVerdictsProps {
  readonly card: Card;
  readonly unit: Unit;
  /** Rows of verdicts before the rest is only counted. */
  readonly most: number;
}

/** What a card says, on screen: verdicts, the points in question, the wheel. */
export function CardVerdicts({ card, unit, most }: CardVerdictsProps) {
  const verdicts = verdictFacts(card, unit);
  const points = pointFacts(card, unit);
  const side = cardSide(card);
  const wheel = card.wheels.find((found) => found.side === side);
  return (
    <div className="card-facts">
      <p>
        <b>{stateText(card, unit)}</b>
        <br />
        <span className="fine quiet">{checkedText(card, unit)}</span>
      </p>
      <ul>
        {verdicts.slice(0, most).map((fact) => (
          <li key={fact.key}>
            <GapMark kind={fact.mark} size={20} />
            <span className="unseen">{t(`card.marks.${fact.mark}`)}: </span>
            <span>{fact.name}</span>
            <b>{fact.closest}</b>
          </li>
        ))}
      </ul>
      {verdicts.length > most && <p className="fine quiet">{t("card.more", { count: verdicts.length - most })}</p>}
      {points.length > 0 && (
        <table className="card-points">
          <caption>{t("card.sheet.points")}</caption>
          <thead>
            <tr>
              <th>
                <span className="unseen">{t("card.sheet.point")}</span>
              </th>
              <th>{t("card.sheet.forward")}</th>
              <th>{t("card.sheet.out")}</th>
              <th>{t("card.sheet.up")}</th>
            </tr>
          </thead>
          <tbody>
            {points.slice(0, most).map((point) => (
              <tr key={point.name}>
                <th scope="row">
                  {point.title} <small>{point.name}</small>
                </th>
                <td>{point.forward}</td>
                <td>{point.out}</td>
                <td>{point.up}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {wheel && (
        <dl>
          {wheelReadings(wheel, unit).map(({ name, value }) => (
            <div key={name}>
              <dt>
                <Rich text={t("card.namedQuiet", { name, side: t(`card.sides.${side}`) })} />
              </dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      )}
    </div>
  );
}
