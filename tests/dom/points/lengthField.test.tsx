import { cleanup, fireEvent, render, screen } from "@testing-library/react";
import { useState } from "react";
import { afterEach, describe, expect, it, vi } from "vitest";
import { LengthField } from "../../../src/app/points/LengthField.tsx";
import type { Unit } from "../../../src/app/store/state.ts";

afterEach(cleanup);

interface HeldProps {
  readonly unit: Unit;
  readonly start_mm: number;
  readonly told: number[];
  onKeep(): void;
  onPutBack(): void;
}

function Held({ unit, start_mm, told, onKeep, onPutBack }: HeldProps) {
  const [value_mm, setValue] = useState(start_mm);
  const change = (next_mm: number) => {
    told.push(next_mm);
    setValue(next_mm);
  };
  return (
    <LengthField
      label="Up"
      from="off ground"
      value_mm={value_mm}
      unit={unit}
      onChange={change}
      onKeep={onKeep}
      onPutBack={onPutBack}
    />
  );
}

function show(unit: Unit, start_mm = 440) {
  const told: number[] = [];
  const [onKeep, onPutBack] = [vi.fn(), vi.fn()];
  const { container } = render(
    <Held unit={unit} start_mm={start_mm} told={told} onKeep={onKeep} onPutBack={onPutBack} />,
  );
  const field = screen.getByRole("textbox") as HTMLInputElement;
  const type = (text: string) => fireEvent.change(field, { target: { value: text } });
  const below = () => container.querySelector(".length-field small")!.textContent;
  return { told, field, type, onKeep, onPutBack, below };
}

describe("a length field", () => {
  it("shows the value in the shown unit and the other one below", () => {
    const { field, below } = show("mm");
    expect(field.value).toBe("440.0");
    // 440 / 25.4, the inch being 25.4 mm exactly
    expect(below()).toBe("17.323 in");
  });

  it.each<[text: string, unit: Unit, mm: number]>([
    ["9.5in", "mm", 9.5 * 25.4],
    ["3/8in", "mm", 0.375 * 25.4],
    ["9 7/16", "in", 9.4375 * 25.4],
    ["12+4", "mm", 16],
    ["-3", "mm", -3],
    ["10", "in", 254],
    ["100mm", "in", 100],
  ])("takes %s while %s are shown", (text, unit, mm) => {
    const { type, told } = show(unit);
    type(text);
    expect(told.at(-1)).toBeCloseTo(mm, 9);
  });

  it("keeps what is typed and tells what it comes to", () => {
    const { type, field, below } = show("mm");
    type("440+4");
    expect(field.value).toBe("440+4");
    expect(below()).toBe("= 444.0 mm");
    fireEvent.blur(field);
    expect(field.value).toBe("444.0");
  });

  it("adds what begins with a plus to what stood there before typing", () => {
    const { type, field, told, below } = show("mm", 318);
    for (const text of ["+", "+2", "+20"]) type(text);
    expect(told.at(-1)).toBe(338);
    expect(field.value).toBe("+20");
    expect(below()).toBe("= 338.0 mm");
    fireEvent.blur(field);
    type("+1/4in");
    expect(told.at(-1)).toBeCloseTo(338 + 6.35, 9);
  });

  it("takes a leading minus for a place below zero, and says so", () => {
    const { type, told, below } = show("mm", 318);
    type("-20");
    expect(told.at(-1)).toBe(-20);
    expect(below()).toBe("a place, not a step");
  });

  it("says in inches what the rule reads", () => {
    const { type, below } = show("in", 9.4375 * 25.4);
    expect(below()).toBe("about 9 7/16 in\n239.7 mm");
    type("9.4375+1");
    expect(below()).toBe("= 10.438 in\nabout 10 7/16 in");
    // one foot is twelve inches
    type("1' 4 1/4\"");
    expect(below()).toBe("= 16.250 in\nabout 16 1/4 in");
  });

  it("keeps nonsense in the field, says what is wanted, and tells nobody", () => {
    const { type, field, told, below } = show("mm");
    type("nine");
    fireEvent.blur(field);
    expect(field.value).toBe("nine");
    expect(field.getAttribute("aria-invalid")).toBe("true");
    expect(below()).toBe("Not a length. Try 9.5in or 12+4");
    expect(told).toEqual([]);
  });

  it("does not keep by Enter while nonsense stands in it", () => {
    const { type, field, onKeep } = show("mm");
    type("nine");
    fireEvent.keyDown(field, { key: "Enter" });
    expect(onKeep).not.toHaveBeenCalled();
    type("9");
    fireEvent.keyDown(field, { key: "Enter" });
    expect(onKeep).toHaveBeenCalledOnce();
  });

  it("forgets what was typed on Escape and asks to put it back", () => {
    const { type, field, onPutBack } = show("mm");
    type("nine");
    fireEvent.keyDown(field, { key: "Escape" });
    expect(onPutBack).toHaveBeenCalledOnce();
    expect(field.value).toBe("440.0");
  });

  it("nudges by 1, 5 and 10 mm", () => {
    const { told } = show("mm");
    for (const text of ["−10", "−5", "−1", "+1", "+5", "+10"]) fireEvent.click(screen.getByText(text));
    expect(told).toEqual([430, 425, 424, 425, 430, 440]);
  });

  it("nudges by a sixteenth, a quarter and half of an inch", () => {
    const { told } = show("in", 0);
    for (const name of ["plus a sixteenth of an inch", "minus a quarter inch", "plus half an inch"])
      fireEvent.click(screen.getByRole("button", { name: `Up ${name}` }));
    const inches = [1 / 16, 1 / 16 - 1 / 4, 1 / 16 - 1 / 4 + 1 / 2];
    told.forEach((mm, i) => {
      expect(mm).toBeCloseTo(inches[i]! * 25.4, 12);
    });
    expect(told).toHaveLength(3);
  });
});
