import { useRef, useState } from "react";
import type { Card, CardPhoto } from "../../buildlog/entry.ts";
import { t } from "../text/text.ts";
import { log } from "./cards.ts";
import { readPhotos } from "./readPhoto.ts";
import { usePicture } from "./usePicture.ts";

/** What the builder photographed, with what each shows; more can be added at any time. */
export function Photos({ card }: { card: Card }) {
  const chooser = useRef<HTMLInputElement>(null);
  const [told, setTold] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const change = (photos: readonly CardPhoto[]) => void log.getState().keep([{ ...card, photos }]);
  const add = async (files: readonly File[]) => {
    setBusy(true);
    const { photos, refused } = await readPhotos(files);
    // the card as it is by now: another photo may have been added or named meanwhile
    const now = log.getState().cards.get(card.id) ?? card;
    if (photos.length > 0) await log.getState().keep([{ ...now, photos: [...now.photos, ...photos] }]);
    setTold(refused.length > 0 ? t("log.photos.refused", { files: refused.join(", "), count: refused.length }) : null);
    setBusy(false);
  };
  return (
    <section className="log-photos" aria-label={t("log.photos.label")}>
      <header>
        <h4>{t("log.photos.label")}</h4>
        <button type="button" className="button" disabled={busy} onClick={() => chooser.current?.click()}>
          {busy ? t("log.photos.reading") : t("log.photos.add")}
        </button>
      </header>
      <input
        ref={chooser}
        type="file"
        multiple
        accept="image/jpeg,image/png,image/webp"
        className="unseen"
        tabIndex={-1}
        aria-label={t("log.photos.choose")}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          event.target.value = "";
          if (files.length > 0) void add(files);
        }}
      />
      {told && (
        <p className="card-trouble" role="alert">
          {told}
        </p>
      )}
      {card.photos.length === 0 && <p className="small quiet">{t("log.photos.none")}</p>}
      <ul>
        {card.photos.map((photo, i) => (
          <Photo
            // biome-ignore lint/suspicious/noArrayIndexKey: a photo is known by its place; the same one may be there twice
            key={i}
            photo={photo}
            number={i + 1}
            onCaption={(caption) => change(card.photos.map((one, j) => (j === i ? { ...one, caption } : one)))}
            onRemove={() => change(card.photos.filter((_, j) => j !== i))}
          />
        ))}
      </ul>
    </section>
  );
}

interface PhotoProps {
  readonly photo: CardPhoto;
  readonly number: number;
  onCaption(caption: string): void;
  onRemove(): void;
}

function Photo({ photo, number, onCaption, onRemove }: PhotoProps) {
  const address = usePicture(photo);
  const [caption, setCaption] = useState(photo.caption);
  return (
    <li>
      <div className="card-picture">{address && <img src={address} alt={photo.caption || photo.name} />}</div>
      <input
        className="field"
        value={caption}
        maxLength={300}
        placeholder={photo.name}
        aria-label={t("log.photos.caption", { number })}
        onChange={(event) => setCaption(event.target.value)}
        onBlur={() => caption.trim() !== photo.caption && onCaption(caption.trim())}
      />
      <button type="button" className="button plain" onClick={onRemove}>
        {t("log.photos.remove", { number })}
      </button>
    </li>
  );
}
