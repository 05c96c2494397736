import { Select } from "@base-ui/react/select";

export interface PickerItem {
  readonly value: string;
  readonly label: string;
}

interface PickerProps {
  readonly label: string;
  readonly items: readonly PickerItem[];
  readonly value: string;
  onPick(value: string): void;
}

/** One of a list, under its name. */
export function Picker({ label, items, value, onPick }: PickerProps) {
  return (
    <Select.Root items={items} value={value} onValueChange={(picked) => picked !== null && onPick(picked)}>
      <Select.Trigger className="picker" aria-label={label}>
        <span>
          <span className="quiet">{label}</span> <Select.Value />
        </span>
        <Select.Icon aria-hidden="true">▾</Select.Icon>
      </Select.Trigger>
      <Select.Portal>
        <Select.Positioner className="picker-place" align="start" sideOffset={4} alignItemWithTrigger={false}>
          <Select.Popup className="menu">
            {items.map((item) => (
              <Select.Item key={item.value} value={item.value} className="menu-item">
                <Select.ItemText>{item.label}</Select.ItemText>
              </Select.Item>
            ))}
          </Select.Popup>
        </Select.Positioner>
      </Select.Portal>
    </Select.Root>
  );
}
