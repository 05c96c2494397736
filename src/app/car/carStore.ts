import { create } from "zustand";

export type CarSheet = "members" | "travel" | "gaps" | "rock" | "allow" | "datums" | "point";

/** Which sheet of the car's settings is open. */
export const useCar = create<{ readonly open: CarSheet | null }>()(() => ({ open: null }));

export function openCar(open: CarSheet): void {
  useCar.setState({ open });
}

export function closeCar(): void {
  useCar.setState({ open: null });
}
