import type * as z from "zod";
import { shortQuote } from "../scene/path.ts";

/** What is wrong with a field, in words of the file and not of the library that looked at it. */
export function tellIssue(issue: z.core.$ZodIssue | undefined): string {
  switch (issue?.code) {
    case "unrecognized_keys":
      return `holds ${shortQuote(issue.keys[0] ?? "")}, which is not known`;
    case "custom":
      return issue.message;
    case "invalid_type":
      return `is no ${issue.expected}`;
    default:
      return "is not what stands there";
  }
}
