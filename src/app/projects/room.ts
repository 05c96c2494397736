import { create } from "zustand";

/** How much the browser lets this page keep, and whether it may throw that away when room runs short. */
export interface Room {
  /** null: the browser does not say. */
  readonly isPromised: boolean | null;
  readonly used_bytes: number | null;
  readonly most_bytes: number | null;
}

export const useRoom = create<Room>()(() => ({ isPromised: null, used_bytes: null, most_bytes: null }));

/** Asks for the promise to keep the work; browsers give it more readily once there is something to lose. */
export async function askToKeep(): Promise<void> {
  try {
    const isPromised = (await navigator.storage?.persisted?.()) || (await navigator.storage?.persist?.());
    useRoom.setState({ isPromised: isPromised ?? null });
  } catch {
    useRoom.setState({ isPromised: null });
  }
}

export async function lookAtRoom(): Promise<void> {
  try {
    const [isPromised, estimate] = await Promise.all([
      navigator.storage?.persisted?.(),
      navigator.storage?.estimate?.(),
    ]);
    useRoom.setState({
      isPromised: isPromised ?? null,
      used_bytes: estimate?.usage ?? null,
      most_bytes: estimate?.quota ?? null,
    });
  } catch {
    useRoom.setState({ isPromised: null, used_bytes: null, most_bytes: null });
  }
}
