import { create } from "zustand";

/** The lists among the load records. */
export const LISTS = ["cases", "materials", "tubes", "bolts", "plates", "welds", "ratings"] as const;
export type ListName = (typeof LISTS)[number];

export interface LoadsForm {
  readonly what: "basics" | ListName;
  /** A joint, member or material that the form begins a record for, where it has none. */
  readonly of?: string;
}

/** Which form of the load records is open. */
export const useLoadsForm = create<{ readonly open: LoadsForm | null }>()(() => ({ open: null }));

export function openForm(open: LoadsForm): void {
  useLoadsForm.setState({ open });
}

export function closeForm(): void {
  useLoadsForm.setState({ open: null });
}
