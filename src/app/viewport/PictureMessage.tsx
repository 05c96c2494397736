import type { ReactNode } from "react";
import type { Theme } from "../store/state.ts";

/** Says in the picture's place why there is none. */
export function PictureMessage({
  theme,
  title,
  children,
  action,
}: {
  theme: Theme;
  title: string;
  children: ReactNode;
  action?: { readonly label: string; readonly run: () => void };
}) {
  const [sheet, ink, ink2, line] =
    theme === "daylight" ? ["#FFFFFF", "#12191B", "#465254", "#85918F"] : ["#182023", "#EEF2EF", "#B4C0C0", "#6E7F84"];
  return (
    <div
      role="status"
      style={{
        position: "absolute",
        inset: 0,
        display: "grid",
        placeItems: "center",
        padding: 22,
        pointerEvents: "none",
      }}
    >
      <div
        style={{
          maxWidth: 380,
          padding: "18px 22px",
          background: sheet,
          color: ink,
          border: `1px solid ${line}`,
          borderRadius: 3,
          pointerEvents: "auto",
        }}
      >
        <p style={{ margin: 0, fontSize: 18, fontWeight: 700 }}>{title}</p>
        <p style={{ margin: "8px 0 0", fontSize: 15, lineHeight: 1.4, color: ink2 }}>{children}</p>
        {action !== undefined && (
          <button
            type="button"
            onClick={action.run}
            style={{
              marginTop: 12,
              minHeight: 44,
              padding: "0 14px",
              font: "inherit",
              fontSize: 15,
              fontWeight: 620,
              color: ink,
              background: "transparent",
              border: `1.5px solid ${ink}`,
              borderRadius: 5,
              cursor: "pointer",
            }}
          >
            {action.label}
          </button>
        )}
      </div>
    </div>
  );
}
