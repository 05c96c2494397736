import { Choices } from "../shell/Choices.tsx";
import { type Paper, usePrinting } from "./printing.ts";

const PAPERS: readonly { readonly value: Paper; readonly name: string }[] = [
  { value: "A4", name: "A4" },
  { value: "Letter", name: "Letter" },
];

export function PaperChoice() {
  const paper = usePrinting((state) => state.paper);
  return <Choices label="Paper" options={PAPERS} value={paper} onChoose={usePrinting.getState().choosePaper} />;
}
