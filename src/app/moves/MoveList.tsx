import { type ReactNode, useId } from "react";
import type { Scene } from "../../scene/scene.ts";
import type { Move, MovesResult, PricedAlteration } from "../../studies/moves/moves.ts";
import type { MovePrice } from "../../studies/price.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { useApp } from "../store/useApp.ts";
import { listText } from "../text/formats.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { lengthText, wantedText } from "../words/number.ts";
import { alterationNote, alterationText } from "./alterationText.ts";
import type { MovesQuestion } from "./movesStore.ts";
import { leftOutText, limitText, pairPriceText, pairText, priceRows } from "./moveText.ts";
import { TriedHere } from "./TriedHere.tsx";
import { isTriedAlteration, isTriedMove, titleOf, tryAlteration, tryMoveFound } from "./tryFound.ts";
import { wayText } from "./wayText.ts";

interface MoveListProps {
  readonly told: { readonly question: MovesQuestion; readonly result: MovesResult };
  /** What was found is not of the car as it is now: it is shown, but not to be tried. */
  readonly isOutdated: boolean;
}

/** What was found, the smallest first, each with its price. */
export function MoveList({ told: { question, result }, isOutdated }: MoveListProps) {
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const { targets, leftOut } = result;
  const title = useId();
  if (targets.length === 0) return <p className="gear-clear">{t("moves.nothingOpen")}</p>;
  const found = foundOf(result);
  const count = found.length;
  const longest_mm = Math.max(...found.map(({ way_mm }) => way_mm), 1);
  return (
    <section className="moves-found" data-stale={isOutdated} aria-labelledby={title}>
      <h2 id={title}>{count === 0 ? t("moves.foundNone") : t("moves.found", { count })}</h2>
      <ul className="moves-targets">
        {targets.map((target) => (
          <li key={`${target.side} ${target.a} ${target.b}`}>
            <GapMark kind={target.verdict} size={19} />
            <span>
              {t(`moves.target.${target.clearance_mm < 0 ? "deep" : "off"}`, {
                pair: pairText(target, scene),
                side: t(`words.sides.${target.side}`),
                amount: lengthText(Math.abs(target.clearance_mm), unit),
                wanted: wantedText(target.required_mm, unit),
              })}
            </span>
          </li>
        ))}
      </ul>
      {count === 0 && <p>{t("moves.none", { within: wantedText(question.within_mm, unit) })}</p>}
      <ol>
        {found.map((each) =>
          "alteration" in each ? (
            <AlterationRow
              key={JSON.stringify(each.alteration)}
              found={each}
              question={question}
              scene={scene}
              share={each.way_mm / longest_mm}
              isOutdated={isOutdated}
            />
          ) : (
            <MoveRow
              key={JSON.stringify([each.kind, each.fit, each.moves])}
              move={each}
              question={question}
              scene={scene}
              share={each.way_mm / longest_mm}
              isOutdated={isOutdated}
            />
          ),
        )}
      </ol>
      {leftOut.length > 0 && (
        <p className="tool-note">
          {t("moves.leftOut", { list: listText(leftOut.map((name) => leftOutText(name, scene))) })}
        </p>
      )}
    </section>
  );
}

/** Moves and alterations together, the smallest first; a bar that is thin enough by its own formula alone is proved by nobody. */
function foundOf({ moves, alterations, thinner }: MovesResult): (Move | PricedAlteration)[] {
  const isTold = (member: string) =>
    alterations.some(({ alteration }) => alteration.kind === "thinner" && alteration.member === member);
  const others = thinner
    .filter(({ member }) => !isTold(member))
    .map(
      (bar): PricedAlteration => ({
        alteration: { kind: "thinner", ...bar },
        fit: "cut",
        way_mm: (bar.was_mm - bar.diameter_mm) / 2,
        price: null,
      }),
    );
  return [...moves, ...alterations, ...others].sort((a, b) => a.way_mm - b.way_mm);
}

interface RowProps {
  readonly question: MovesQuestion;
  readonly scene: Scene | null;
  readonly isOutdated: boolean;
}

function MoveRow({ move, question, scene, share, isOutdated }: RowProps & { move: Move; share: number }) {
  const unit = useApp((state) => state.unit);
  const isTried = useApp((state) => isTriedMove(state, question.document, move));
  return (
    <Found
      words={move.moves.map(({ point, by }) => (
        <span key={point}>
          <Rich
            text={t("moves.pointWayStrong", {
              point: titleOf(question.document, point),
              way: wayText(by, unit),
            })}
          />
        </span>
      ))}
      note={t(`moves.how.${move.fit}`)}
      way={lengthText(move.way_mm, unit)}
      share={share}
      price={
        move.price ? <Price price={move.price} scene={scene} /> : <p className="tool-note">{t("moves.unproved")}</p>
      }
      isTried={isTried}
      isOutdated={isOutdated}
      onTry={() => tryMoveFound(question.document, move)}
    />
  );
}

function AlterationRow({
  found,
  question,
  scene,
  share,
  isOutdated,
}: RowProps & { found: PricedAlteration; share: number }) {
  const unit = useApp((state) => state.unit);
  const { alteration, way_mm, price } = found;
  const isTried = useApp((state) => isTriedAlteration(state, question.document, alteration));
  return (
    <Found
      words={<Rich text={alterationText(alteration, scene, unit, "strong")} />}
      note={alterationNote(alteration)}
      way={lengthText(way_mm, unit)}
      share={share}
      price={price ? <Price price={price} scene={scene} /> : <p className="tool-note">{t("moves.unproved")}</p>}
      isTried={isTried}
      isOutdated={isOutdated}
      onTry={() => tryAlteration(question.document, alteration)}
    />
  );
}

interface FoundProps {
  readonly words: ReactNode;
  readonly note: string;
  /** How far in all. */
  readonly way: string;
  /** Of the longest way. */
  readonly share: number;
  readonly price: ReactNode;
  readonly isTried: boolean;
  readonly isOutdated: boolean;
  onTry(): void;
}

function Found({ words, note, way, share, price, isTried, isOutdated, onTry }: FoundProps) {
  return (
    <li className="move-found" data-tried={isTried}>
      <div className="move-way">
        <b className="tabular">{way}</b>
        <span className="bar" aria-hidden="true">
          <span style={{ width: `${Math.max(2, 100 * share)}%` }} />
        </span>
      </div>
      <p className="move-words">{words}</p>
      <p className="tool-note">{note}</p>
      {price}
      {isTried && <TriedHere />}
      {!isTried && (
        <button type="button" className="button" disabled={isOutdated} onClick={onTry}>
          {t("moves.try")}
        </button>
      )}
    </li>
  );
}

/** What a move costs, checked in full. */
export function Price({ price, scene }: { price: MovePrice; scene: Scene | null }) {
  const unit = useApp((state) => state.unit);
  const { open, nearer, passed } = price;
  const isWhole = open.length === 0 && passed.length === 0;
  const openNames = new Set(open.map(({ side, a, b }) => `${side} ${a} ${b}`));
  return (
    <div className="move-price">
      <dl className="tabular">
        {priceRows(price, unit).map(({ reading, text, share }) => (
          <div key={reading}>
            <dt>{t(`moves.price.readings.${reading}`)}</dt>
            <dd>
              {text}
              <span className="bar" aria-hidden="true">
                <span style={{ width: `${100 * share}%` }} />
              </span>
            </dd>
          </div>
        ))}
      </dl>
      {isWhole && (
        <p className="move-clear">
          <GapMark kind="clear" size={19} /> {t("moves.price.allClear")}
        </p>
      )}
      <ul>
        {open.map((pair) => (
          <li key={`${pair.side} ${pair.a} ${pair.b}`}>
            <GapMark kind={pair.verdict} size={19} /> <span>{pairPriceText(pair, scene, unit, "open")}</span>
          </li>
        ))}
        {[...new Set(passed.map(limitText))].map((limit) => (
          <li key={limit}>
            <GapMark kind="limit" size={19} /> <span>{t("moves.price.passed", { limit })}</span>
          </li>
        ))}
        {nearer
          .filter(({ side, a, b }) => !openNames.has(`${side} ${a} ${b}`))
          .map((pair) => (
            <li key={`${pair.side} ${pair.a} ${pair.b}`}>
              <GapMark kind="clear" size={19} /> <span>{pairPriceText(pair, scene, unit, "nearer")}</span>
            </li>
          ))}
      </ul>
    </div>
  );
}
