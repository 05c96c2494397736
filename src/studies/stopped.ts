/** Thrown by a study that is not wanted any more. */
export class StudyStopped extends Error {
  override readonly name = "StudyStopped";
}

/** One of several parts into which a study is split: shares 0 to of − 1, together the whole of it. */
export interface Share {
  readonly index: number;
  readonly of: number;
}

export const WHOLE: Share = { index: 0, of: 1 };
