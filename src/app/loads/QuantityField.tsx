import { PlainField } from "../parts/SizeField.tsx";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import type { en } from "../text/en/index.ts";
import { t } from "../text/text.ts";
import { KG_PER_LB, MPA_PER_KSI, N_PER_LBF } from "./quantity.ts";

type Quantity = "mass" | "force" | "stress";

/** In inches the trade weighs in pounds and reads certificates in thousands of pounds a square inch. */
const SHOWN: Readonly<
  Record<
    Quantity,
    Readonly<Record<Unit, { readonly unit: keyof (typeof en)["loads"]["quantityUnits"]; readonly size: number }>>
  >
> = {
  mass: { mm: { unit: "kg", size: 1 }, in: { unit: "lb", size: KG_PER_LB } },
  force: { mm: { unit: "N", size: 1 }, in: { unit: "lbf", size: N_PER_LBF } },
  stress: { mm: { unit: "MPa", size: 1 }, in: { unit: "ksi", size: MPA_PER_KSI } },
};

interface QuantityFieldProps {
  readonly label: string;
  readonly quantity: Quantity;
  /** kg, N or MPa. */
  readonly value: number;
  /** Of the buttons, in the shown unit. */
  readonly step: number;
  onChange(value: number): void;
}

/** A mass, force or stress in the shown units; the other one stands below. */
export function QuantityField({ label, quantity, value, step, onChange }: QuantityFieldProps) {
  const unit = useApp((state) => state.unit);
  const [shown, other] =
    unit === "mm" ? [SHOWN[quantity].mm, SHOWN[quantity].in] : [SHOWN[quantity].in, SHOWN[quantity].mm];
  const rounded = (size: number) => Number((value / size).toPrecision(6));
  return (
    <PlainField
      label={label}
      value={rounded(shown.size)}
      unit={t("loads.values.both", {
        shown: t(`loads.quantityUnits.${shown.unit}`),
        value: Number((value / other.size).toPrecision(4)),
        other: t(`loads.quantityUnits.${other.unit}`),
      })}
      step={step}
      trouble={null}
      onChange={(typed) => onChange(Number((typed * shown.size).toPrecision(9)))}
    />
  );
}
