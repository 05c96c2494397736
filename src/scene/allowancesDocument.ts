import { list, name, number, record, text } from "./values.ts";

/** What parts may take beyond how they are drawn and where rigid joints put them. */
export const allowances = record({
  /** The tread stands so much farther out all round at speed, mm. */
  tyreGrowth_mm: number(0, 100, "mm").optional(),
  /** Each sidewall stands so much farther out sideways under load, mm. */
  tyreBulge_mm: number(0, 100, "mm").optional(),
  /** By what parts ride on: how far any place of them may be pushed off, whichever way, as bushes and mounts give, mm. */
  give: list(record({ on: name, mm: number(0, 100, "mm"), why: text(500).optional() }), 0, 100).optional(),
});
