import { useMemo } from "react";
import { useApp } from "../store/useApp.ts";
import { type LedgerRow, ledgerRows } from "./ledgerRows.ts";

export function useRows(): readonly LedgerRow[] | null {
  const result = useApp((state) => state.result);
  return useMemo(() => result && ledgerRows(result), [result]);
}
