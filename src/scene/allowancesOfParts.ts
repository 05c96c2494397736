import type { SceneDocument } from "./document.ts";

/** The document's allowances with a part under another id. */
export function withAllowancesRenamed(document: SceneDocument, from: string, to: string): SceneDocument {
  const give = document.allowances?.give;
  if (!give?.some(({ on }) => on === from)) return document;
  const renamed = give.map((each) => (each.on === from ? { ...each, on: to } : each));
  return { ...document, allowances: { ...document.allowances, give: renamed } };
}

/** The document without what these parts give; `gone`: what bodies can ride on. */
export function withoutAllowancesOf(document: SceneDocument, gone: readonly string[]): SceneDocument {
  const { allowances, ...others } = document;
  const kept = allowances?.give?.filter(({ on }) => !gone.includes(on));
  if (!allowances?.give || kept?.length === allowances.give.length) return document;
  const { give: _, ...rest } = allowances;
  const left = kept && kept.length > 0 ? { ...rest, give: kept } : rest;
  return Object.keys(left).length > 0 ? { ...others, allowances: left } : others;
}
