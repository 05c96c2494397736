import { useState } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { type NamedPicture, picturesOf } from "./CardPictures.tsx";
import { CardHead } from "./CardView.tsx";
import { Swipe } from "./Swipe.tsx";
import { usePicture } from "./usePicture.ts";

const WAYS = ["beside", "swipe"] as const;

/** Two cards' pictures beside each other or one over the other, in a view that both have. */
export function ComparedPictures({ before, after }: { before: Card; after: Card }) {
  const unit = useApp((state) => state.unit);
  const [way, setWay] = useState<(typeof WAYS)[number]>("beside");
  const [name, setName] = useState("");
  const views = sharedViews(picturesOf(before, unit), picturesOf(after, unit));
  const view = views.find((found) => found.name === name) ?? views[0];
  const [a, b] = view?.pair ?? [null, null];
  return (
    <>
      {view && (
        <div className="compared-ways">
          <Choices
            label={t("log.compared.ways")}
            options={WAYS.map((value) => ({ value, name: t(`log.compared.way.${value}`) }))}
            value={way}
            onChoose={setWay}
          />
          {views.length > 1 && (
            <Choices
              label={t("log.views.label")}
              options={views.map((found) => ({ value: found.name, name: found.name }))}
              value={view.name}
              onChoose={setName}
            />
          )}
        </div>
      )}
      <div className="compared-pictures">
        {([before, after] as const).map((card, index) => (
          <article key={card.id} className="log-card">
            <CardHead card={card} letter={index === 0 ? "A" : "B"} />
            {(way === "beside" || !a || !b) && <Beside card={card} picture={index === 0 ? a : b} />}
            {card.note && <p className="log-note">{card.note}</p>}
          </article>
        ))}
      </div>
      {way === "swipe" && a && b && <Swipe key={`${before.id} ${after.id} ${view!.name}`} before={a} after={b} />}
    </>
  );
}

function Beside({ card, picture }: { card: Card; picture: NamedPicture | null }) {
  const own = picture?.picture ?? card.picture;
  const address = usePicture(own);
  return (
    <>
      <div className="card-picture">
        {address ? <img src={address} alt={card.title} /> : <p>{t("log.noPicture")}</p>}
      </div>
      {picture && <p className="small quiet log-view-state">{picture.state}</p>}
    </>
  );
}

interface SharedView {
  readonly name: string;
  readonly pair: readonly [NamedPicture, NamedPicture];
}

function sharedViews(before: readonly NamedPicture[], after: readonly NamedPicture[]): SharedView[] {
  return before.flatMap((a) => {
    const b = after.find(({ name }) => name === a.name);
    return b ? [{ name: a.name, pair: [a, b] as const }] : [];
  });
}
