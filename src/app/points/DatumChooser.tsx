import { Select } from "@base-ui/react/select";
import { memo, useMemo } from "react";
import { useAppLater } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { usePointsLook } from "./pointsStore.ts";

const CAR = "";

/** Where forward, out and up are measured from: the car itself, or one of the scene's datums. */
export const DatumChooser = memo(function DatumChooser() {
  // a pulled point gives a new list with the same names
  const ids = useAppLater(({ scene }) => JSON.stringify(scene?.datums.map(({ id }) => id) ?? []));
  const datumId = usePointsLook((look) => look.datumId);
  const items = useMemo(
    () => [
      { value: CAR, label: t("points.datum.car") },
      ...(JSON.parse(ids) as string[]).map((id) => ({ value: id, label: datumName(id) })),
    ],
    [ids],
  );
  const value = items.some((item) => item.value === datumId) ? datumId : CAR;
  return (
    <Select.Root items={items} value={value} onValueChange={(id) => usePointsLook.setState({ datumId: id || null })}>
      <Select.Trigger className="datum-chooser" aria-label={t("points.datum.label")}>
        <span>
          <span className="quiet">{t("points.datum.label")}</span> <Select.Value />
        </span>
        <Select.Icon aria-hidden="true">▾</Select.Icon>
      </Select.Trigger>
      <Select.Portal>
        <Select.Positioner className="datum-place" align="start" sideOffset={4} alignItemWithTrigger={false}>
          <Select.Popup className="menu">
            {items.map((item) => (
              <Select.Item key={item.value} value={item.value} className="menu-item">
                <Select.ItemText>{item.label}</Select.ItemText>
              </Select.Item>
            ))}
            {items.length === 1 && <p className="menu-label">{t("points.datum.none")}</p>}
          </Select.Popup>
        </Select.Positioner>
      </Select.Portal>
    </Select.Root>
  );
});

export function datumName(id: string): string {
  return id.replace(/[-_.]+/g, " ");
}
