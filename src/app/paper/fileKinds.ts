import type { FileKind } from "../files/saveFile.ts";
import { t } from "../text/text.ts";

export const PDF_FILE: FileKind = { description: t("paper.files.pdf"), mime: "application/pdf", ending: ".pdf" };
export const CSV_FILE: FileKind = { description: t("paper.files.csv"), mime: "text/csv", ending: ".csv" };
