import { NumberValueObject } from "@univerjs/engine-formula";
import { checkBudget } from "./deadline";

const makeNumber = NumberValueObject.create.bind(NumberValueObject);

/** Looks at the clock while Univer computes, which makes a number at nearly every step. */
export function watchBudget(): void {
  NumberValueObject.create = (value, pattern) => {
    checkBudget();
    return makeNumber(value, pattern);
  };
}
