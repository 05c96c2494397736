import { useMemo } from "react";
import { dayText, timeText } from "../card/when.ts";
import type { RowKind } from "../corner/ledgerRows.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { t } from "../text/text.ts";
import { log, useLog } from "./cards.ts";
import type { CardRow } from "./rows.ts";
import { usePicture } from "./usePicture.ts";

interface CardListProps {
  readonly rows: readonly CardRow[];
  readonly open: string | null;
  onOpen(): void;
}

/** The timeline: cards under the day they were made, the newest on top. `open` is the card that is shown alone. */
export function CardList({ rows, open, onOpen }: CardListProps) {
  const days = useMemo(() => byDay(rows), [rows]);
  return (
    <div className="timeline">
      {days.map(([day, ofDay]) => (
        <section key={day} aria-label={day}>
          <h3>{day}</h3>
          <ol className="card-list">
            {ofDay.map((row) => (
              <Row key={row.digest.id} row={row} isOpen={row.digest.id === open} onOpen={onOpen} />
            ))}
          </ol>
        </section>
      ))}
    </div>
  );
}

/** In the order of the rows: a day comes again where cards were numbered in another order than they were made. */
function byDay(rows: readonly CardRow[]): [string, CardRow[]][] {
  const days: [string, CardRow[]][] = [];
  for (const row of rows) {
    const day = dayText(row.digest.made);
    const last = days.at(-1);
    if (last?.[0] === day) last[1].push(row);
    else days.push([day, [row]]);
  }
  return days;
}

function Row({ row, isOpen, onOpen }: { row: CardRow; isOpen: boolean; onOpen(): void }) {
  const { id, number, title, made, revision, photos } = row.digest;
  const ticked = useLog((state) => state.ticked);
  const rows = useLog((state) => state.rows);
  const letter = letterOf(row, rows, ticked);
  const thumb = useMemo(() => row.thumb && { png: row.thumb }, [row]);
  const address = usePicture(thumb);
  return (
    <li data-open={isOpen} data-ticked={letter !== null}>
      <button
        type="button"
        aria-current={isOpen}
        onClick={() => {
          log.getState().open(id);
          onOpen();
        }}
      >
        <span className="thumb">{address && <img src={address} alt="" loading="lazy" decoding="async" />}</span>
        <span>
          <b>
            <span className="number">{number}</span> {title}
          </b>
          <span className="quiet">
            <span>{timeText(made)}</span>
            {revision && <span className="revision">{t("log.revision", { revision })}</span>}
            {photos > 0 && <span>{t("log.photos.count", { count: photos })}</span>}
          </span>
          <Tally tally={row.tally} />
        </span>
      </button>
      <label className="tick">
        <input
          type="checkbox"
          className="unseen"
          checked={letter !== null}
          onChange={() => {
            log.getState().tick(id);
            onOpen();
          }}
          aria-label={t("log.compare", { number })}
        />
        <span aria-hidden="true">{letter ?? ""}</span>
      </label>
    </li>
  );
}

/** "A" for the earlier of two ticked cards, "B" for the later; a single one is A. */
function letterOf(
  { digest: { id, number } }: CardRow,
  rows: readonly CardRow[],
  ticked: readonly string[],
): "A" | "B" | null {
  if (!ticked.includes(id)) return null;
  const other = rows.find(({ digest }) => digest.id !== id && ticked.includes(digest.id));
  return other && other.digest.number < number ? "B" : "A";
}

function Tally({ tally: { clash, tight, limit } }: { tally: Readonly<Record<RowKind, number>> }) {
  return (
    <span className="tally-line">
      <span>
        <GapMark kind={clash > 0 ? "clash" : "clear"} size={18} />
        {clash > 0 ? <Count count={clash} text={t("log.tally.clash", { count: clash })} /> : t("log.tally.none")}
      </span>
      <span>
        <GapMark kind="tight" size={18} />
        <Count count={tight} text={t("log.tally.tight", { count: tight })} />
      </span>
      {limit > 0 && (
        <span>
          <GapMark kind="limit" size={16} />
          <Count count={limit} text={t("log.tally.limit", { count: limit })} />
        </span>
      )}
    </span>
  );
}

/** The figure for the eye, which has the mark beside it; the whole for the ear. */
function Count({ count, text }: { count: number; text: string }) {
  return (
    <>
      <span aria-hidden="true">{count}</span>
      <span className="unseen">{text}</span>
    </>
  );
}
