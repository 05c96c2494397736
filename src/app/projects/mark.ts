import { isTime } from "./sound.ts";

/** What the browser ought to hold, written where a clearing of the database for want of room does not reach. */
export interface Mark {
  readonly projects: number;
  /** Of the project changed last. */
  readonly title: string;
  readonly changed_ms: number;
}

const KEY = "elbowroom keeps";

export interface MarkPlace {
  read(): Mark | null;
  write(mark: Mark | null): void;
}

/** Where the browser allows no such place, nothing is remembered and nothing is missed. */
export function browserMark(): MarkPlace {
  return {
    read() {
      try {
        const mark: unknown = JSON.parse(localStorage.getItem(KEY) ?? "null");
        return isMark(mark) ? mark : null;
      } catch {
        return null;
      }
    },
    write(mark) {
      try {
        if (mark) localStorage.setItem(KEY, JSON.stringify(mark));
        else localStorage.removeItem(KEY);
      } catch {
        // a refusal here costs only the notice that work has gone
      }
    },
  };
}

function isMark(value: unknown): value is Mark {
  if (typeof value !== "object" || value === null) return false;
  const { projects, title, changed_ms } = value as Partial<Mark>;
  return typeof projects === "number" && typeof title === "string" && isTime(changed_ms);
}
