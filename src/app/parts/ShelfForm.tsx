import { Dialog } from "@base-ui/react/dialog";
import { useState } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { MadeDocument, PointDocument, SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { addPart, dressMember } from "../../scene/parts/add.ts";
import { shapeOfMade } from "../../scene/parts/follow.ts";
import { freeId } from "../../scene/parts/parts.ts";
import { isVector } from "../../scene/pointResolver.ts";
import type { Recipe } from "../../scene/recipes/recipe.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { nameWithin } from "../words/names.ts";
import { PartPicture } from "./PartPicture.tsx";
import { Picker } from "./Picker.tsx";
import { PlaceField, PointListFields } from "./PlaceFields.tsx";
import { editParts } from "./partEdits.ts";
import { pointWords } from "./partFields.ts";
import { mountItems } from "./partGroups.ts";
import { recipeText, shownFields } from "./recipeText.ts";
import { SheetRows } from "./SheetRows.tsx";
import { suggestedMade, withOwnPoints } from "./shelfItems.ts";
import { TextLine } from "./TextLine.tsx";

interface ShelfFormProps {
  readonly document: SceneDocument;
  readonly recipe: Recipe;
  onBack(): void;
  onAdded(id: string): void;
}

/** "": a part of its own; else the member that takes the shape. */
const ITSELF = "";

/** What a part from the shelf is called, rides and hangs on, and its sizes, with a picture of just that. */
export function ShelfForm({ document, recipe, onBack, onAdded }: ShelfFormProps) {
  const unit = useApp((state) => state.unit);
  const heldPoint = useApp((state) => state.heldPoint);
  const isNonsense = usePointsLook((look) => look.troubled.size > 0);
  const [id, setId] = useState(() => freeId(document, recipeText(recipe.name, "name")));
  const [on, setOn] = useState<string>(() => usualMount(document, recipe));
  const [both, setBoth] = useState(recipe.role === "bracket");
  const [made, setMade] = useState(() => suggestedMade(document, recipe, heldPoint));
  const [dressed, setDressed] = useState(ITSELF);
  const [refused, setRefused] = useState<InputError | null>(null);
  const own = withOwnPoints(document, recipe, made, id.trim() || recipe.name);
  const trouble = refused ?? troubleOf({ ...document, points: { ...document.points, ...own.points } }, own.made);
  const title = recipeText(recipe.name, "title");
  const fields = shownFields(recipe);
  const stands = on === "chassis" || on === "powertrain";
  const change = (next: MadeDocument) => {
    setRefused(null);
    setMade(next);
  };
  const dress = (member: string) => {
    setDressed(member);
    const link = document.members.find((candidate) => candidate.id === member);
    if (link?.kind === "link") change({ ...made, a: link.inboard, b: link.outboard });
  };
  const add = () => {
    const error =
      dressed === ITSELF
        ? editParts(t("parts.edit.add", { name: id.trim() }), (now) =>
            addPart(now, { id: id.trim(), on, made: own.made, points: own.points, mirror: stands && both }),
          )
        : editParts(
            t("parts.edit.dress", { name: nameWithin(dressed, document), recipe: recipeText(recipe.name, "name") }),
            (now) => dressMember(now, dressed, own.made, own.points),
          );
    setRefused(error);
    if (!error) onAdded(dressed === ITSELF ? id.trim() : dressed);
  };
  return (
    <form
      className="shelf-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!isNonsense) add();
      }}
    >
      <Dialog.Title>{title}</Dialog.Title>
      <Dialog.Description className="lead">{recipeText(recipe.name, "about")}</Dialog.Description>
      <div className="shelf-columns">
        <div>
          <PartPicture
            made={made}
            document={document}
            label={t("parts.shelf.picture", { title })}
            width={280}
            height={170}
          />
          {recipe.isArm && (
            <Picker
              label={t("parts.shelf.becomes")}
              items={[{ value: ITSELF, label: t("parts.shelf.itself") }, ...linkItems(document)]}
              value={dressed}
              onPick={dress}
            />
          )}
          {dressed === ITSELF && (
            <>
              <TextLine label={t("parts.name")} value={id} onChange={setId} />
              <Picker label={t("parts.ridesOn")} items={mountItems(document)} value={on} onPick={setOn} />
              {stands && (
                <label className="check-line">
                  <input type="checkbox" checked={both} onChange={(event) => setBoth(event.target.checked)} />
                  <span>{t("parts.shelf.mirror")}</span>
                </label>
              )}
            </>
          )}
          {Object.entries(fields).map(([key, field]) => {
            if (field.kind === "points") {
              return (
                <PointListFields
                  key={key}
                  label={field.label}
                  document={document}
                  field={field}
                  value={made[key] as readonly PointDocument[]}
                  onChange={(points) => change({ ...made, [key]: points })}
                />
              );
            }
            if (field.kind !== "point") return null;
            return (
              <WantedPoint
                key={key}
                label={field.label}
                document={document}
                usual={field.usual}
                value={made[key] as PointDocument}
                onChange={(point) => change({ ...made, [key]: point })}
              />
            );
          })}
        </div>
        <div>
          <SheetRows
            fields={fields}
            values={made as never}
            document={document}
            unit={unit}
            trouble={trouble}
            sizesOnly
            onChange={(values) => change(values as unknown as MadeDocument)}
          />
        </div>
      </div>
      <div className="dialog-buttons">
        <button type="button" className="button" onClick={onBack}>
          {t("parts.shelf.back")}
        </button>
        <button type="submit" className="button go" disabled={isNonsense || (trouble !== null && refused === null)}>
          {t("parts.shelf.add")}
        </button>
      </div>
    </form>
  );
}

function usualMount(document: SceneDocument, { on }: Recipe): string {
  return mountItems(document).some(({ value }) => value === on) ? on : "chassis";
}

function linkItems(document: SceneDocument) {
  return document.members
    .filter(({ kind }) => kind === "link")
    .map(({ id }) => ({ value: id, label: t("parts.shelf.shapeOf", { name: nameWithin(id, document) }) }));
}

/** Why these values cannot be drawn; null: they can. */
function troubleOf(document: SceneDocument, made: MadeDocument): InputError | null {
  try {
    shapeOfMade(document, made);
    return null;
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}

interface WantedPointProps {
  readonly label: string;
  readonly document: SceneDocument;
  readonly usual: Vec3;
  readonly value: PointDocument;
  onChange(point: PointDocument): void;
}

const OWN = "\u0000";
const AS_IT_IS = "\u0001";

/** A hard point of the scene, or a new one with its place. */
function WantedPoint({ label, document, usual, value, onChange }: WantedPointProps) {
  const unit = useApp((state) => state.unit);
  const isOwn = isVector(value);
  const isStep = !isOwn && typeof value !== "string";
  const items = [
    { value: OWN, label: t("parts.shelf.newPoint") },
    ...(isStep ? [{ value: AS_IT_IS, label: pointWords(value) }] : []),
    ...Object.keys(document.points).map((name) => ({ value: name, label: name })),
  ];
  const shown = isOwn ? OWN : isStep ? AS_IT_IS : (value as string);
  return (
    <div className="wanted-point">
      <Picker
        label={label}
        items={items}
        value={shown}
        onPick={(picked) => {
          if (picked === OWN) onChange(usual);
          else if (picked !== AS_IT_IS) onChange(picked);
        }}
      />
      {isOwn && (
        <div className="place-parts">
          <PlaceField value={value} unit={unit} onChange={onChange} />
        </div>
      )}
    </div>
  );
}
