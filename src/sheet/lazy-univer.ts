import type { UniverFormulas } from "./univer-formulas";

/** Univer for one workbook. Its modules take longer to load than most workbooks to compute, so it comes when it is needed. */
export class LazyUniver {
  /** Undefined until it was brought. */
  formulas: UniverFormulas | undefined;
  private isDisposed = false;

  constructor(private readonly make: () => Promise<UniverFormulas>) {}

  async bring(): Promise<UniverFormulas> {
    const formulas = this.formulas ?? (await this.make());
    this.formulas ??= formulas;
    if (this.formulas !== formulas) formulas.dispose();
    if (this.isDisposed) this.dispose();
    return this.formulas;
  }

  dispose(): void {
    this.isDisposed = true;
    this.formulas?.dispose();
  }
}
