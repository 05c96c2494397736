import { useState } from "react";
import type { Card, CardPicture } from "../../buildlog/entry.ts";
import { stateText } from "../card/facts.ts";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { engineText } from "../words/names.ts";
import { travelText } from "../words/travel.ts";
import { usePicture } from "./usePicture.ts";

export interface NamedPicture {
  readonly key: string;
  /** "Full bump"; "As shown". */
  readonly name: string;
  /** Where wheels and engine stand. */
  readonly state: string;
  readonly picture: CardPicture;
}

/** The card's pictures of the car: as shown first, then the views in the order they were taken. */
export function picturesOf(card: Card, unit: Unit): NamedPicture[] {
  const shown = { key: "shown", name: t("log.views.shown"), state: stateText(card, unit) };
  return [
    ...(card.picture ? [{ ...shown, picture: card.picture }] : []),
    ...card.views.map(({ name, state, travel_mm, pose, share, picture }, i) => ({
      key: `${state} ${i}`,
      name: name || t(`log.views.${state}`),
      state: t("card.state", { travel: travelText(travel_mm.left, unit), engine: engineText(pose, share) }),
      picture,
    })),
  ];
}

/** One picture large, with its state under it, and a button for each of the others. */
export function CardPictures({ card }: { card: Card }) {
  const unit = useApp((state) => state.unit);
  const pictures = picturesOf(card, unit);
  const [key, setKey] = useState("");
  const shown = pictures.find((picture) => picture.key === key) ?? pictures[0];
  const address = usePicture(shown?.picture ?? null);
  return (
    <div>
      <div className="card-picture">
        {address && shown ? (
          <img src={address} alt={pictures.length > 1 ? `${card.title}, ${shown.name}` : card.title} />
        ) : (
          <p>{t("log.noPicture")}</p>
        )}
      </div>
      {shown && pictures.length > 1 && (
        <div className="log-views">
          <fieldset className="choices" aria-label={t("log.views.label")}>
            {pictures.map((picture) => (
              <button
                key={picture.key}
                type="button"
                aria-pressed={picture === shown}
                onClick={() => setKey(picture.key)}
              >
                {picture.name}
              </button>
            ))}
          </fieldset>
          <p className="small quiet">{shown.state}</p>
        </div>
      )}
    </div>
  );
}
