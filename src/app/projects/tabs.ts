/** The right to change a project, which one tab has at a time. */
export interface Hold {
  release(): void;
  /** Resolves when another tab has taken the project without waiting. */
  readonly lost: Promise<void>;
}

export type TabMessage =
  | { readonly about: "saved"; readonly id: string }
  | { readonly about: "asked"; readonly id: string }
  | { readonly about: "list" };

/** What tabs on the same projects arrange among themselves. */
export interface Tabs {
  /** null: another tab has the project. */
  claim(id: string): Promise<Hold | null>;
  /** Asks the tab that has it, and takes it without an answer where none comes. */
  takeOver(id: string): Promise<Hold>;
  tell(message: TabMessage): void;
  listen(hear: (message: TabMessage) => void): () => void;
}

/** A tab that is asleep or stuck does not answer. */
const ANSWER_ms = 3000;

export function browserTabs(wait_ms = ANSWER_ms): Tabs {
  const channel = new BroadcastChannel("elbowroom-projects");
  const tell = (message: TabMessage): void => channel.postMessage(message);
  return {
    claim: (id) => requestLock(id, { ifAvailable: true }),
    async takeOver(id) {
      tell({ about: "asked", id });
      try {
        const hold = await requestLock(id, { signal: AbortSignal.timeout(wait_ms) });
        if (hold) return hold;
      } catch (error) {
        if (!(error instanceof Error) || error.name !== "TimeoutError") throw error;
      }
      return (await requestLock(id, { steal: true }))!;
    },
    tell,
    listen(hear) {
      const onMessage = (event: MessageEvent<TabMessage>): void => hear(event.data);
      channel.addEventListener("message", onMessage);
      return () => channel.removeEventListener("message", onMessage);
    },
  };
}

function requestLock(id: string, options: LockOptions): Promise<Hold | null> {
  // pages served without a secure context have no locks; the revision of a save still guards the project there
  if (!navigator.locks) return Promise.resolve({ release: () => {}, lost: new Promise(() => {}) });
  return new Promise((resolve, reject) => {
    let release = (): void => {};
    const held = new Promise<void>((done) => {
      release = done;
    });
    let lose = (): void => {};
    const lost = new Promise<void>((done) => {
      lose = done;
    });
    navigator.locks
      .request(`elbowroom-project/${id}`, options, (lock) => {
        resolve(lock ? { release, lost } : null);
        return lock ? held : undefined;
      })
      .catch((error) => {
        lose();
        reject(error);
      });
  });
}
