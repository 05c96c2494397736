import { app } from "../store/useApp.ts";
import { isPairRow, ledgerRows } from "./ledgerRows.ts";

/** Chooses the clash (or tight pair) before or next in the ledger; from nothing, the worst. */
export function stepChosen(by: 1 | -1): void {
  const { result, chosenPair, choosePair } = app.getState();
  if (!result) return;
  const rows = ledgerRows(result).filter(isPairRow);
  const worrying = rows.filter(({ kind }) => kind === "clash" || kind === "tight");
  const keys = (worrying.length > 0 ? worrying : rows).map(({ key }) => key);
  if (keys.length === 0) return;
  const at = chosenPair === null ? -1 : keys.indexOf(chosenPair);
  const next = at < 0 ? (by > 0 ? 0 : keys.length - 1) : (at + by + keys.length) % keys.length;
  choosePair(keys[next]!);
}
