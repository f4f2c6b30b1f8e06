/** Work that may be done, in steps of some 4 ns. */
export class StepBudget {
  /** Steps taken so far. */
  used = 0;

  /** @param most steps that may be taken; what is begun may be ended */
  constructor(readonly most: number) {}

  /**
   * Takes steps.
   *
   * @param steps how many
   * @returns false where they were more than what was left
   */
  take(steps: number): boolean {
    this.used += steps;
    return this.used <= this.most;
  }

  /** True where nothing is left to begin anything with. */
  get isSpent(): boolean {
    return this.used > this.most;
  }
}
