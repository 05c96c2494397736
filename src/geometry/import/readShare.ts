/** Told now and then how much of a file is read, 0 to 1; may throw to end the reading. */
export type ReadShare = (share: number) => void;

/** Steps between two tellings: some milliseconds of reading. */
export const TELL_EVERY = 20_000;
