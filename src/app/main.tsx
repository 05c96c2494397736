import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "@fontsource-variable/atkinson-hyperlegible-next/wght-italic.css";
import "./style/tokens.css";
import "./style/base.css";
import "./style/controls.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./App.tsx";
import { showLastTheme } from "./shell/firstTheme.ts";
import { keepOffline } from "./shell/update.ts";
import { begin } from "./store/begin.ts";

showLastTheme();
void begin();
void keepOffline();
createRoot(document.getElementById("root")!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
