import { t } from "../text/text.ts";

/** Whether so many constraints hold the hub, and what is wanted if not. */
export function heldText(total: number): string {
  if (total === 5) return t("car.members.held");
  return total < 5
    ? t("car.members.short", { total, count: 5 - total })
    : t("car.members.over", { total, spare: total - 5 });
}
