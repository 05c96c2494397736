import { useState } from "react";
import { wayIn } from "../../fabrication/picture/view.ts";
import { listPoints } from "../../scene/points.ts";
import type { PaperFormProps } from "../paper/PaperDialog.tsx";
import { Picker } from "../parts/Picker.tsx";
import { pointInfos } from "../points/pointInfo.ts";
import { t } from "../text/text.ts";
import { type PointsLength, usePictureLook } from "./pictureStore.ts";

const WAYS = ["straight", "forward", "out", "up"] as const;

/** Lengths between hard points that shall be drawn: those that there are, and one more. */
export function LengthsField({ document }: PaperFormProps) {
  const lengths = usePictureLook((look) => look.lengths);
  const view = usePictureLook((look) => look.view);
  const names = listPoints(document).map(({ name }) => name);
  const titles = new Map(pointInfos(document).map(({ name, title }) => [name, title]));
  const titleOf = (name: string) => titles.get(name) ?? name;
  const [next, setNext] = useState<PointsLength>({ from: names[0] ?? "", to: names[1] ?? "", along: "straight" });
  if (names.length < 2) return null;
  const items = names.map((value) => ({ value, label: titleOf(value) }));
  const ways = WAYS.filter((way) => way === "straight" || wayIn(view, way) !== null);
  const along = ways.includes(next.along) ? next.along : "straight";
  const add = () => usePictureLook.setState({ lengths: [...lengths, { ...next, along }] });
  const textOf = (one: PointsLength) =>
    t("picture.lengthText", { from: titleOf(one.from), to: titleOf(one.to), way: t(`picture.ways.${one.along}`) });
  return (
    <fieldset className="picture-lengths">
      <legend>{t("picture.lengths")}</legend>
      {lengths.length > 0 && (
        <ul>
          {lengths.map((one) => (
            <li key={JSON.stringify(one)}>
              <span>{textOf(one)}</span>
              {one.along !== "straight" && wayIn(view, one.along) === null && (
                <span className="quiet"> {t("picture.notInView")}</span>
              )}
              <button
                type="button"
                className="button"
                aria-label={t("picture.removeLength", { length: textOf(one) })}
                onClick={() => usePictureLook.setState({ lengths: lengths.filter((other) => other !== one) })}
              >
                {t("picture.remove")}
              </button>
            </li>
          ))}
        </ul>
      )}
      <div className="picture-fields">
        <Picker
          label={t("picture.from")}
          items={items}
          value={next.from}
          onPick={(from) => setNext({ ...next, from })}
        />
        <Picker label={t("picture.to")} items={items} value={next.to} onPick={(to) => setNext({ ...next, to })} />
        <Picker
          label={t("picture.way")}
          items={ways.map((value) => ({ value, label: t(`picture.ways.${value}`) }))}
          value={along}
          onPick={(way) => setNext({ ...next, along: WAYS.find((each) => each === way)! })}
        />
        <button
          type="button"
          className="button"
          disabled={
            next.from === next.to || lengths.some((one) => JSON.stringify(one) === JSON.stringify({ ...next, along }))
          }
          onClick={add}
        >
          {t("picture.addLength")}
        </button>
      </div>
    </fieldset>
  );
}
