/** What XML 1.0 has no way to hold, not even as a reference (production 2, Char). Read as code points: half a surrogate pair is one by itself. */
const NO_CHARACTER = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;

/** What somebody wrote as the text of an XML element or attribute, never read as markup; other controls and what is no character as blanks. */
export function xmlText(text: string): string {
  return text
    .replace(NO_CHARACTER, " ")
    .replace(/\p{Cc}/gu, " ")
    .replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
