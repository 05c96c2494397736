import "./shell/trusted.ts";
import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "@fontsource-variable/atkinson-hyperlegible-next/wght-italic.css";
import "./style/tokens.css";
import "./style/base.css";
import "./style/controls.css";
import { chosenLanguage, readText } from "./text/text.ts";

// what shows text is imported after the text: it may be read once, when a file is
await readText(chosenLanguage());
const { show } = await import("./show.tsx");
show();
