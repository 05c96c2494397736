import type { ModelBody, PartGroup } from "../../check/model.ts";
import { Swatch } from "../marks/Swatch.tsx";
import { app, useApp } from "../store/useApp.ts";
import { nameOf } from "../words/names.ts";

const GROUPS: readonly { readonly group: PartGroup; readonly title: string }[] = [
  { group: "chassis", title: "Chassis" },
  { group: "powertrain", title: "Powertrain" },
  { group: "hub", title: "Hub side" },
  { group: "arms", title: "Arms" },
];

/** Every part by what it rides on; pressing one holds it in the view, pressing it again lets go. */
export function PartsList() {
  const bodies = useApp((state) => state.bodies);
  const scene = useApp((state) => state.scene);
  const heldPart = useApp((state) => state.heldPart);
  return GROUPS.map(({ group, title }) => {
    const ids = idsOf(bodies, group);
    if (ids.length === 0) return null;
    return (
      <section key={group} className="points-group">
        <h3>
          <Swatch group={group} />
          {title} <small>{ids.length}</small>
        </h3>
        {ids.map((id) => (
          <button
            key={id}
            type="button"
            className="part-row"
            aria-pressed={id === heldPart}
            onClick={() => app.getState().hold(id === heldPart ? null : id)}
          >
            <b>{nameOf(id, scene)}</b>
            <small>{stockOf(id, scene?.members ?? [])}</small>
          </button>
        ))}
      </section>
    );
  });
}

function idsOf(bodies: readonly ModelBody[], group: PartGroup): string[] {
  return [...new Set(bodies.filter((body) => body.group === group).map((body) => body.id))];
}

function stockOf(id: string, members: readonly { readonly id: string; readonly stock: string }[]): string {
  const stock = members.find((member) => member.id === id)?.stock;
  return stock === "donor" ? "donor part, keeps its shape" : stock === "made" ? "made, may be cut" : "";
}
