/** Whether what a sheet tells was drawn or was measured on the car. */
export type Standing = "drawn" | "built";

/** What a frame says, in the language of the sheet. */
export interface FrameWords {
  readonly date: string;
  readonly revision: string;
  readonly units: string;
  readonly state: string;
  readonly datum: string;
  readonly standing: Readonly<Record<Standing, string>>;
  readonly page: (page: number, pages: number) => string;
}

export const FRAME_ENGLISH: FrameWords = {
  date: "Date",
  revision: "Revision",
  units: "Units",
  state: "State",
  datum: "Measured from",
  standing: { drawn: "as drawn", built: "as built" },
  page: (page, pages) => `Page ${page} of ${pages}`,
};
