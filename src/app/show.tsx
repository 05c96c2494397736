import { CSPProvider } from "@base-ui/react/csp-provider";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./App.tsx";
import { showLastTheme } from "./shell/firstTheme.ts";
import { Guard } from "./shell/Guard.tsx";
import { keepOffline } from "./shell/update.ts";
import { begin } from "./store/begin.ts";
import { fetchViewport } from "./viewport/fetchViewport.ts";

export function show(): void {
  // while the projects are read; where it fails, the view tells it when it is wanted
  fetchViewport().catch(() => {});
  showLastTheme();
  void begin();
  void keepOffline();
  createRoot(document.getElementById("root")!).render(
    <StrictMode>
      <CSPProvider disableStyleElements>
        <Guard>
          <App />
        </Guard>
      </CSPProvider>
    </StrictMode>,
  );
}
