import { ErrorType, ErrorValueObject, type FunctionVariantType } from "@univerjs/engine-formula";
import { whereDefined } from "./corrected-arguments";
import type { Correction } from "./corrections";
import { decliningBalance } from "./depreciation";
import { cellByCell, numberOf, ofRanges } from "./plain-functions";
import { internalRate, modifiedRate } from "./rates-of-return";
import { codeOf } from "./trust";
import { rowsOf } from "./univer-values";

/** Functions of Univer about rates, payments and depreciation that are not trusted as they are. */
export const FINANCIAL_CORRECTIONS: readonly Correction[] = [
  {
    functions: ["IRR"],
    defect: "stops at seven digits",
    correct:
      (univer) =>
      (...variants) => {
        const near = rowsOf(univer(...variants) as FunctionVariantType)[0]?.[0] ?? null;
        return ofRanges((...args) => internalRate(near, ...args))(...variants);
      },
  },
  {
    functions: ["MIRR"],
    defect: "divides by a rate of -1, and gives #DIV/0! where nothing is earned",
    correct: () => ofRanges(modifiedRate),
  },
  {
    functions: ["XNPV"],
    defect: "gives #VALUE! for a payment that is no number",
    correct:
      (univer) =>
      (...variants) => {
        const payments = variants.slice(1, 2).flatMap((variant) => rowsOf(variant).flat());
        const isOdd = payments.some((value) => typeof value !== "number" && codeOf(value) === undefined);
        return isOdd ? ErrorValueObject.create(ErrorType.NUM) : univer(...variants);
      },
  },
  {
    functions: ["DB"],
    defect: "knows no year after the last, and no thing that costs nothing",
    correct: () =>
      cellByCell((cost, salvage, life, period, month = 12) =>
        decliningBalance(
          numberOf(cost),
          numberOf(salvage),
          numberOf(life),
          numberOf(period),
          numberOf(month),
        ),
      ),
  },
  {
    functions: ["SYD"],
    defect: "takes periods before the first",
    correct: (univer) => whereDefined(univer, (_cost, _salvage, _life, period = 0) => period > 0),
  },
  {
    functions: ["PDURATION"],
    defect: "takes rates and values that are not above 0",
    correct: (univer) => whereDefined(univer, (...numbers) => numbers.every((number) => number > 0)),
  },
];
