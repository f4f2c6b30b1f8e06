/** Ends the evaluation of a formula that must keep its stored value; `message` is the reason, for a person. */
export class RefusedFormula extends Error {}
