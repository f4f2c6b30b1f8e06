/** Values of the terms, each absent where it was not typed. Durations in s, lengths in m, temperatures in K. */
export interface TermCells {
  readonly breakage: number;
  readonly "breakage outdoors": number;
  readonly "breakage foil": number;
  readonly confidence: number;
  readonly costing: "used share" | "whole bags" | "replacement";
  readonly "leftover worth": number;
  readonly "missing balloon each": number;
  readonly pay: number;
  readonly crew: number;
  readonly pace: number;
  readonly buffer: number;
  /** Time of day as a part of a day. */
  readonly "day start": number;
  readonly "day end": number;
  /** One way, s. */
  readonly travel: number;
  /** One way, m. */
  readonly distance: number;
  /** Money for each kilometre. */
  readonly "per km": number;
  readonly collect: boolean;
  readonly "collect crew": number;
  readonly stay: boolean;
  readonly "spread travel": boolean;
  readonly lengths: "m" | "ft";
  readonly distances: "km" | "mi";
  readonly "gas loss": number;
  readonly purity: number;
  readonly treated: boolean;
  readonly "tether safety": number;
  readonly humidity: number;
  readonly temperature: number;
  readonly altitude: number;
  readonly "fill temperature": number;
  readonly "fill altitude": number;
  /** m/s */
  readonly gust: number;
  readonly "room m3": number;
  readonly margin: number;
  readonly basis: "price" | "cost";
  readonly discount: number;
  readonly tax: number;
  readonly deposit: number;
  readonly minimum: number;
  readonly "tax included": boolean;
  readonly "round to": number;
  readonly ending: number;
  readonly budget: number;
  readonly option: string;
  /** Excel serial, or a time of day as a part of a day. */
  readonly ready: number;
  readonly access: number;
  readonly start: number;
  readonly end: number;
  readonly "clear by": number;
  readonly "job spread": number;
  readonly "own spread": number;
  readonly "fullness job spread": number;
  readonly "fullness own spread": number;
  readonly "breakage weight": number;
  readonly "breakage likeness": number;
  readonly sure: number;
}

/** Name of a term. */
export type TermName = keyof TermCells;

/** A row of terms: exactly one term with its value, or a doubt. */
export interface TermRowCells {
  readonly term: TermName;
  readonly value: TermCells[TermName];
}

/** A row of events: its terms win over the terms of the job. */
export type EventCells = { readonly event: string } & TermCells;
