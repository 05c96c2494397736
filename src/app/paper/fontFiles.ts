import regularLatin from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff?url";
import boldLatin from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff?url";
import regularMoreLatin from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff?url";
import boldMoreLatin from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-700-normal.woff?url";
import regularCyrillic from "@fontsource/noto-sans/files/noto-sans-cyrillic-400-normal.woff?url";
import boldCyrillic from "@fontsource/noto-sans/files/noto-sans-cyrillic-700-normal.woff?url";
import regularGreek from "@fontsource/noto-sans/files/noto-sans-greek-400-normal.woff?url";
import boldGreek from "@fontsource/noto-sans/files/noto-sans-greek-700-normal.woff?url";

/** Addresses of the letters of printed sheets: the page's own first, then Cyrillic and Greek from a plain face. */
export const REGULAR = [regularLatin, regularMoreLatin, regularCyrillic, regularGreek];
export const BOLD = [boldLatin, boldMoreLatin, boldCyrillic, boldGreek];
