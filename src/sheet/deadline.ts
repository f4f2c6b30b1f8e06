/** Ends the evaluation of a formula that takes too long. */
export class BudgetSpent extends Error {
  constructor() {
    super("the formula takes too long");
  }
}

/** Steps between two looks at the clock, which costs more than a step. */
const STEPS = 512;

let end = Infinity;
let steps = 0;

/** Gives what is evaluated from now on some milliseconds. */
export function startBudget(milliseconds: number): void {
  end = performance.now() + milliseconds;
  steps = 0;
}

/** Throws BudgetSpent once the time is over. To be called at every step that may repeat. */
export function checkBudget(): void {
  if (++steps % STEPS === 0) lookAtClock();
}

function lookAtClock(): void {
  if (performance.now() > end) throw new BudgetSpent();
}
