import { type ReactNode, useId } from "react";
import type { Scene } from "../../scene/scene.ts";
import type { Move, MovesResult, ThinnerMember } from "../../studies/moves/moves.ts";
import type { MovePrice } from "../../studies/price.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { useApp } from "../store/useApp.ts";
import { listText } from "../text/formats.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { lengthText, wantedText } from "../words/number.ts";
import type { MovesQuestion } from "./movesStore.ts";
import { leftOutText, limitText, pairPriceText, pairText, priceRows } from "./moveText.ts";
import { TriedHere } from "./TriedHere.tsx";
import { isTriedMove, thinned_mm, titleOf, tryMoveFound, tryThinner } from "./tryFound.ts";
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
  const { targets, leftOut, moves, thinner } = result;
  const title = useId();
  if (targets.length === 0) return <p className="gear-clear">{t("moves.nothingOpen")}</p>;
  const count = moves.length + thinner.length;
  const longest_mm = Math.max(...moves.map(({ way_mm }) => way_mm), 1);
  return (
    <section className="moves-found" data-stale={isOutdated} aria-labelledby={title}>
      <h3 id={title}>{count === 0 ? t("moves.foundNone") : t("moves.found", { count })}</h3>
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
      {moves.length === 0 && <p>{t("moves.none", { within: wantedText(question.within_mm, unit) })}</p>}
      <ol>
        {moves.map((move) => (
          <MoveRow
            key={JSON.stringify([move.kind, move.fit, move.moves])}
            move={move}
            question={question}
            scene={scene}
            share={move.way_mm / longest_mm}
            isOutdated={isOutdated}
          />
        ))}
        {thinner.map((member) => (
          <ThinnerRow key={member.member} member={member} question={question} scene={scene} isOutdated={isOutdated} />
        ))}
      </ol>
      {leftOut.length > 0 && (
        <p className="tool-note">
          {t("moves.leftOut", { list: listText(leftOut.map((name) => leftOutText(name, scene))) })}
        </p>
      )}
    </section>
  );
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

function ThinnerRow({ member, question, scene, isOutdated }: RowProps & { member: ThinnerMember }) {
  const unit = useApp((state) => state.unit);
  const isTried = useApp(({ triedEdit }) => triedEdit?.part === member.member);
  return (
    <Found
      words={
        <Rich
          text={t("moves.thinner", {
            part: nameOf(member.member, scene),
            diameter: lengthText(thinned_mm(member.diameter_mm), unit),
            was: lengthText(member.was_mm, unit),
          })}
        />
      }
      note={t("moves.how.thinner")}
      way={null}
      share={0}
      price={null}
      isTried={isTried}
      isOutdated={isOutdated}
      onTry={() => tryThinner(question.document, member)}
    />
  );
}

interface FoundProps {
  readonly words: ReactNode;
  readonly note: string;
  /** How far in all; null where nothing is moved. */
  readonly way: string | null;
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
      {way !== null && (
        <div className="move-way">
          <b className="tabular">{way}</b>
          <span className="bar" aria-hidden="true">
            <span style={{ width: `${Math.max(2, 100 * share)}%` }} />
          </span>
        </div>
      )}
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
function Price({ price, scene }: { price: MovePrice; scene: Scene | null }) {
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
