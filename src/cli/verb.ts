/** What a verb prints and the exit status it asks for. */
export interface VerbOutcome {
  readonly output: string;
  readonly status: 0 | 1;
}

export interface VerbOptions {
  readonly json: boolean;
  readonly travel: string | undefined;
  readonly pose: string | undefined;
}
