import { createStore as createShelf, del, entries, get, keys, set, setMany, type UseStore } from "idb-keyval";
import { type ClashDecision, decisionSchema } from "../../buildlog/decision.ts";
import type { Card } from "../../buildlog/entry.ts";
import { nextNumber } from "../../buildlog/make.ts";
import { readCard } from "../../buildlog/read.ts";
import { InputError } from "../../scene/error.ts";
import { ON_DISK } from "../projects/shelf.ts";
import { t } from "../text/text.ts";
import { type CardRow, rowOf } from "./rows.ts";

export interface LoadedLog {
  readonly rows: readonly CardRow[];
  readonly decisions: readonly ClashDecision[];
  /** What was kept but cannot be read by this version; it stays where it is. */
  readonly unreadable: readonly InputError[];
}

/** Where the browser keeps the build log. Each call rejects with the browser's own error. */
export interface CardStorage {
  /** All but the cards themselves. */
  load(): Promise<LoadedLog>;
  /** null: it is not there any more. Rejects with InputError where it cannot be read. */
  card(id: string): Promise<Card | null>;
  keep(cards: readonly Card[], rows: readonly CardRow[]): Promise<void>;
  drop(id: string): Promise<void>;
  decide(decisions: readonly ClashDecision[]): Promise<void>;
  /** The number for a new card: above every one ever kept, deleted ones too. */
  nextNumber(): Promise<number>;
}

/** The same shelf whose writes count as done once they are on the disk: what was decided is not lost by a power cut. */
function onDisk(shelf: UseStore): UseStore {
  return (mode, callback) =>
    mode === "readonly"
      ? shelf(mode, callback)
      : shelf("readonly", ({ name, transaction: { db } }) =>
          callback(db.transaction(name, mode, ON_DISK).objectStore(name)),
        );
}

/** A row that was damaged is made anew like one that is missing. */
function isRowEntry(entry: [string, unknown]): entry is [string, CardRow] {
  const row = entry[1] as Partial<CardRow> | null | undefined;
  const { digest, tally } = row ?? {};
  return digest?.id === entry[0] && Array.isArray(digest.findings) && typeof tally === "object" && tally !== null;
}

const CARD = "card/";
const HIGHEST_KEY = "highest number";
const DECISION = "decision/";

/**
 * In this browser's database, on this machine only. Cards lie in one shelf, what the timeline shows of them in another, which is
 * made anew from the cards where it lacks a row: all that a log of hundreds reads when it opens is small.
 */
export function browserCardStorage(
  shelf: UseStore = onDisk(createShelf("elbowroom-log", "cards")),
  rowShelf: UseStore = createShelf("elbowroom-log-rows", "rows"),
): CardStorage {
  const highest = async () => (await get<number>(HIGHEST_KEY, shelf)) ?? 0;
  const card = async (id: string) => {
    const kept: unknown = await get(CARD + id, shelf);
    return kept === undefined ? null : readCard(kept, t("log.name"), CARD + id);
  };
  return {
    card,
    async load() {
      const known = new Map((await entries<string, unknown>(rowShelf)).filter(isRowEntry));
      const all = await keys<string>(shelf);
      const rows: CardRow[] = [];
      const unreadable: InputError[] = [];
      for (const key of all.filter((one) => one.startsWith(CARD))) {
        const id = key.slice(CARD.length);
        try {
          const row = known.get(id) ?? (await madeAnew(id));
          if (row) rows.push(row);
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          unreadable.push(error);
        }
      }
      const decisions: ClashDecision[] = [];
      for (const key of all.filter((one) => one.startsWith(DECISION))) {
        const read = decisionSchema.safeParse(await get(key, shelf));
        if (read.success) decisions.push(read.data);
        else {
          const wrong = read.error.issues[0]?.message ?? "";
          unreadable.push(new InputError("wrong-value", { file: t("log.name"), path: key }, wrong, ""));
        }
      }
      return { rows, decisions, unreadable };
    },
    async keep(cards, rows) {
      const top = nextNumber([await highest(), ...cards.map(({ number }) => number)]) - 1;
      // a row that is missing is made anew; one of before the change would be believed
      for (const { id } of cards) await del(id, rowShelf);
      const kept = cards.map((one): [string, unknown] => [CARD + one.id, one]);
      await setMany([...kept, [HIGHEST_KEY, top]], shelf);
      await setMany(
        rows.map((row) => [row.digest.id, row]),
        rowShelf,
      );
    },
    async drop(id) {
      await del(CARD + id, shelf);
      await del(id, rowShelf);
    },
    decide: (decisions) =>
      setMany(
        decisions.map((decision) => [DECISION + decision.id, decision]),
        shelf,
      ),
    nextNumber: async () => nextNumber([await highest()]),
  };

  async function madeAnew(id: string): Promise<CardRow | null> {
    const found = await card(id);
    if (!found) return null;
    const row = await rowOf(found);
    await set(id, row, rowShelf);
    return row;
  }
}
