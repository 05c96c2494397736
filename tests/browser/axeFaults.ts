import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

/** To be evaluated on a page before its faults are asked for. */
export const axeProgram = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface Axe {
  run(context: Document, options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
}

/**
 * What axe-core finds against WCAG 2.2, levels A and AA (W3C recommendation of 5 October 2023), and its own best
 * practice; the contrast of text in both themes.
 */
export async function faultsOf(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: Axe };
    const tell = ({ violations }: Awaited<ReturnType<Axe["run"]>>) =>
      violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 200)).join("; ")}`);
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const rules = {
      // the button with the scene's title also tells when it was kept, which is no part of its name
      "label-content-name-mismatch": { enabled: false },
      // menus lie over everything
      region: { enabled: false },
    };
    const all = tell(await axe.run(document, { runOnly: tags, rules }));
    const { dataset } = document.documentElement;
    const theme = dataset.theme;
    dataset.theme = theme === "garage" ? "daylight" : "garage";
    const other = tell(await axe.run(document, { runOnly: ["color-contrast"] }));
    dataset.theme = theme;
    return [...all, ...other.map((fault) => `in the other theme: ${fault}`)];
  });
}
