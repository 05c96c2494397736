import { Swatch } from "../marks/Swatch.tsx";
import type { Show } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { GROUPS } from "./groups.ts";

const NEXT: Readonly<Record<Show, Show>> = { solid: "glass", glass: "off", off: "solid" };

/** What the parts ride on, each group solid, glass or off by turns. */
export function GroupChips() {
  const show = useApp((state) => state.show);
  return (
    <div className="group-chips">
      {GROUPS.map(({ group, name }) => (
        <button
          key={group}
          type="button"
          className="group-chip"
          data-show={show[group]}
          aria-label={t("corner.groupChip", {
            group: name,
            now: t(`corner.show.${show[group]}`),
            next: t(`corner.show.${NEXT[show[group]]}`),
          })}
          onClick={() => app.getState().setShow(group, NEXT[show[group]])}
        >
          <Swatch group={group} />
          <span className="chip-words">
            {name} <small>{t(`corner.show.${show[group]}`)}</small>
          </span>
        </button>
      ))}
    </div>
  );
}
