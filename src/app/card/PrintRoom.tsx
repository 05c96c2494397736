import { useEffect, useLayoutEffect, useRef } from "react";
import { createPortal } from "react-dom";
import { PrintedCard } from "./PrintedCard.tsx";
import { PAPER_mm, usePrinting } from "./printing.ts";
import "./print.css";

/**
 * Lays cards out on paper, out of sight: those that stand open, ready for the browser's own print command, or those asked
 * for, which it hands to the browser's printer and then clears up.
 */
export function PrintRoom() {
  const job = usePrinting((state) => state.job);
  const open = usePrinting((state) => state.open);
  const paper = usePrinting((state) => state.paper);
  const done = usePrinting((state) => state.done);
  const sheets = useRef<HTMLDivElement>(null);

  useEffect(() => {
    if (!job) return;
    let wanted = true;
    window.addEventListener("afterprint", done);
    void whenDrawn(sheets.current).then(() => {
      if (wanted) window.print();
    });
    return () => {
      wanted = false;
      window.removeEventListener("afterprint", done);
    };
  }, [job, done]);

  const sheetsOf = job ?? open;
  usePageRule(paper, sheetsOf !== null);
  if (!sheetsOf) return null;
  const { width, height } = PAPER_mm[paper];
  return createPortal(
    <div
      className="paper"
      aria-hidden="true"
      ref={sheets}
      style={{ "--paper-width": `${width}mm`, "--paper-height": `${height}mm` } as React.CSSProperties}
    >
      <PrintPatterns />
      {sheetsOf.cards.map((card) => (
        <PrintedCard key={card.id} card={card} unit={sheetsOf.unit} paper={paper} />
      ))}
    </div>,
    document.body,
  );
}

/** The page box of the printer. Not a style element, which the page's policy refuses. */
function usePageRule(paper: keyof typeof PAPER_mm, wanted: boolean): void {
  useLayoutEffect(() => {
    if (!wanted) return;
    const rule = new CSSStyleSheet();
    rule.replaceSync(`@page { size: ${paper === "a4" ? "A4" : "letter"} portrait; margin: 0; }`);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, rule];
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== rule);
    };
  }, [paper, wanted]);
}

/** Colour may be missing or read as grey: hatch and dots are drawn in ink on white. */
function PrintPatterns() {
  return (
    <svg width="0" height="0" aria-hidden="true" className="print-patterns">
      <defs>
        <pattern id="print-hatch" width="7" height="7" patternUnits="userSpaceOnUse">
          <rect width="7" height="7" fill="#fff" />
          <path d="M-1 1l2-2M0 7l7-7M6 8l2-2" stroke="#12191b" strokeWidth="2.2" />
        </pattern>
        <pattern id="print-dots" width="5" height="5" patternUnits="userSpaceOnUse">
          <rect width="5" height="5" fill="#fff" />
          <circle cx="2.5" cy="2.5" r="1.1" fill="#12191b" />
        </pattern>
      </defs>
    </svg>
  );
}

/** Fonts and pictures must be there before the sheet goes to the printer, which waits for nothing. */
async function whenDrawn(sheets: HTMLElement | null): Promise<void> {
  await document.fonts?.ready;
  // the pictures get their addresses in effects that run after this one
  await new Promise((resolve) => setTimeout(resolve, 50));
  const pictures = [...(sheets?.querySelectorAll("img") ?? [])];
  await Promise.allSettled(pictures.map((picture) => picture.decode()));
}
