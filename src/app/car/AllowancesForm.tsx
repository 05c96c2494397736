import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { withRecords } from "../../scene/parts/car.ts";
import { Picker } from "../parts/Picker.tsx";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { CarForm } from "./CarForm.tsx";
import { LengthLine, OptionalSize } from "./Fields.tsx";

type Allowances = NonNullable<SceneDocument["allowances"]>;
type Give = NonNullable<Allowances["give"]>[number];

/** Common practice, no source: what a road tyre is given where nothing better is known. */
const GROWTH_USUAL_mm = 3;
const BULGE_USUAL_mm = 10;
const GIVE_USUAL_mm = 2;

/** What the tyre takes beyond its drawn size, and how far bushes and mounts let parts be pushed off. */
export function AllowancesForm({ document }: { document: SceneDocument }) {
  const now: Allowances = document.allowances ?? {};
  const [growth_mm, setGrowth] = useState(now.tyreGrowth_mm);
  const [bulge_mm, setBulge] = useState(now.tyreBulge_mm);
  const [rows, setRows] = useState<readonly (Give & { readonly key: number })[]>(() =>
    (now.give ?? []).map((give, key) => ({ ...give, key })),
  );
  const change = (key: number, part: Partial<Give>) =>
    setRows(rows.map((row) => (row.key === key ? { ...row, ...part } : row)));
  const edit = (before: SceneDocument): SceneDocument => {
    const allowances: Allowances = {
      ...(growth_mm === undefined ? {} : { tyreGrowth_mm: growth_mm }),
      ...(bulge_mm === undefined ? {} : { tyreBulge_mm: bulge_mm }),
      ...(rows.length === 0 ? {} : { give: rows.map(({ key: _, ...give }) => give) }),
    };
    return withRecords(before, { allowances: Object.keys(allowances).length === 0 ? undefined : allowances });
  };
  const riders = ridersOf(document);
  return (
    <CarForm title={t("car.allow.title")} lead={t("car.allow.lead")} step={t("car.allow.step")} edit={edit}>
      <OptionalSize
        label={t("car.allow.growth")}
        value_mm={growth_mm}
        usual_mm={GROWTH_USUAL_mm}
        onChange={setGrowth}
      />
      <OptionalSize label={t("car.allow.bulge")} value_mm={bulge_mm} usual_mm={BULGE_USUAL_mm} onChange={setBulge} />
      <p className="car-label">{t("car.allow.give")}</p>
      {rows.map(({ key, on, mm }, i) => (
        <fieldset key={key} className="car-row" aria-label={t("car.allow.row", { number: i + 1 })}>
          <Picker
            label={t("car.allow.on")}
            items={riders.map((value) => ({ value, label: nameOf(value, document) }))}
            value={on}
            onPick={(next) => change(key, { on: next })}
          />
          <LengthLine label={t("car.allow.by")} value_mm={mm} onChange={(value) => change(key, { mm: value })} />
          <button type="button" className="button plain" onClick={() => setRows(rows.filter((row) => row.key !== key))}>
            {t("car.takeOut")}
          </button>
        </fieldset>
      ))}
      <button
        type="button"
        className="button"
        onClick={() =>
          setRows([
            ...rows,
            { on: riders[0]!, mm: GIVE_USUAL_mm, key: 1 + Math.max(-1, ...rows.map(({ key }) => key)) },
          ])
        }
      >
        {t("car.allow.add")}
      </button>
    </CarForm>
  );
}

/** What can be pushed off: all that parts ride on but the chassis, from which everything is told. */
function ridersOf(document: SceneDocument): string[] {
  return [
    "powertrain",
    "carrier",
    ...document.members.map(({ id }) => id),
    ...(document.damper ? ["damper-upper", "damper-lower"] : []),
    ...(document.driveshaft ? ["driveshaft"] : []),
  ];
}
