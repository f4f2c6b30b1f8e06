import type { AxisShift } from "../../src/formula/axis-shift";

export function insert(axis: AxisShift["axis"], at: number, count = 1): AxisShift {
  return { kind: "insert", axis, at, count };
}

export function remove(axis: AxisShift["axis"], at: number, count = 1): AxisShift {
  return { kind: "delete", axis, at, count };
}

export function move(axis: AxisShift["axis"], at: number, count: number, to: number): AxisShift {
  return { kind: "move", axis, at, count, to };
}
