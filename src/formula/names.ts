import { NAMESPACE } from "../functions/formula-style";
import { closingOf, type FormulaToken, tokenize, variablePositions, withoutPrefix } from "./tokens";

/**
 * Functions that came after Excel 2007, which a file marks with `_xlfn.`
 * (Microsoft support, "An _xlfn. prefix is displayed in front of a formula", and [MS-XLSX] future functions).
 */
const FUTURE_FUNCTIONS = new Set(
  `ACOT ACOTH AGGREGATE ARABIC ARRAYTOTEXT BASE BETA.DIST BETA.INV BINOM.DIST BINOM.DIST.RANGE BINOM.INV BITAND BITLSHIFT
  BITOR BITRSHIFT BITXOR BYCOL BYROW CEILING.MATH CEILING.PRECISE CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT
  CHISQ.TEST CHOOSECOLS CHOOSEROWS COMBINA CONCAT CONFIDENCE.NORM CONFIDENCE.T COT COTH COVARIANCE.P COVARIANCE.S CSC
  CSCH DAYS DECIMAL DROP ENCODEURL ERF.PRECISE ERFC.PRECISE EXPAND EXPON.DIST F.DIST F.DIST.RT F.INV F.INV.RT F.TEST
  FIELDVALUE FILTERXML FLOOR.MATH FLOOR.PRECISE FORECAST.ETS FORECAST.ETS.CONFINT FORECAST.ETS.SEASONALITY
  FORECAST.ETS.STAT FORECAST.LINEAR FORMULATEXT GAMMA GAMMA.DIST GAMMA.INV GAMMALN.PRECISE GAUSS GROUPBY HSTACK
  HYPGEOM.DIST IFNA IFS IMAGE IMCOSH IMCOT IMCSC IMCSCH IMSEC IMSECH IMSINH IMTAN ISFORMULA ISOMITTED ISOWEEKNUM LAMBDA
  LET LOGNORM.DIST LOGNORM.INV MAKEARRAY MAP MAXIFS MINIFS MODE.MULT MODE.SNGL MUNIT NEGBINOM.DIST NORM.DIST NORM.INV
  NORM.S.DIST NORM.S.INV NUMBERVALUE PDURATION PERCENTILE.EXC PERCENTILE.INC PERCENTOF PERCENTRANK.EXC PERCENTRANK.INC
  PERMUTATIONA PHI PIVOTBY POISSON.DIST QUARTILE.EXC QUARTILE.INC QUERYSTRING RANDARRAY RANK.AVG RANK.EQ REDUCE
  REGEXEXTRACT REGEXREPLACE REGEXTEST RRI SCAN SEC SECH SEQUENCE SHEET SHEETS SKEW.P SORTBY STDEV.P STDEV.S STOCKHISTORY
  SWITCH T.DIST T.DIST.2T T.DIST.RT T.INV T.INV.2T T.TEST TAKE TEXTAFTER TEXTBEFORE TEXTJOIN TEXTSPLIT TOCOL TOROW
  TRANSLATE TRIMRANGE UNICHAR UNICODE UNIQUE VALUETOTEXT VAR.P VAR.S VSTACK WEBSERVICE WEIBULL.DIST WRAPCOLS WRAPROWS
  XLOOKUP XMATCH XOR Z.TEST SINGLE ANCHORARRAY`.split(/\s+/),
);
/** Functions that a file marks with `_xlfn._xlws.`. */
const WORKSHEET_FUNCTIONS = new Set(["FILTER", "SORT"]);

const OURS = new RegExp(`^${NAMESPACE}[._](.+)$`, "i");

/** A function of ours without its namespace and in capitals, whichever way a formula spells it; undefined for others. */
export function ourFunction(name: string): string | undefined {
  return OURS.exec(withoutPrefix(name))?.[1]?.toUpperCase();
}

/** The name that a person types for a function: `BLN.NAME` for ours, no marks for Excel's. */
export function typedName(name: string): string {
  const ours = ourFunction(name);
  return ours === undefined ? withoutPrefix(name) : `${NAMESPACE}.${ours}`;
}

/** A function's name as a file keeps it. */
export function fileName(name: string): string {
  const ours = ourFunction(name);
  if (ours !== undefined) return `_xldudf_${NAMESPACE}_${ours}`;
  if (/^_xl/i.test(name)) return name;
  const upper = name.toUpperCase();
  if (WORKSHEET_FUNCTIONS.has(upper)) return `_xlfn._xlws.${upper}`;
  return FUTURE_FUNCTIONS.has(upper) ? `_xlfn.${upper}` : name;
}

/** A formula as a person types it, without its equals sign: marks gone, our functions as `BLN.NAME`, `A1#` and `@`. */
export function typedFormula(formula: string): string {
  const tokens = withSigns(tokenize(formula));
  return tokens
    .map(({ kind, text }) =>
      kind === "call" ? typedName(text) : kind === "name" ? withoutPrefix(text) : text,
    )
    .join("");
}

/** A formula as a file keeps it, without its equals sign; it may come in either form. */
export function fileFormula(formula: string): string {
  const tokens = spillAsCall(intersectionAsCall(tokenize(formula)));
  const variables = variablePositions(tokens);
  return tokens
    .map(({ kind, text }, at) => {
      if (variables.has(at)) return `_xlpm.${withoutPrefix(text)}`;
      if (kind === "call") return fileName(text);
      return kind === "structure" ? fileStructure(text) : text;
    })
    .join("");
}

/** `[@Price]` as a file spells it. */
function fileStructure(text: string): string {
  if (!text.startsWith("[@")) return text;
  const column = text.slice(2, -1).trim();
  if (column === "") return "[#This Row]";
  return `[[#This Row],${column.startsWith("[") ? column : `[${column}]`}]`;
}

const SIGNS: Readonly<Record<string, "spill" | "at">> = { ANCHORARRAY: "spill", SINGLE: "at" };

/** Turns `ANCHORARRAY(A1)` into `A1#` and `SINGLE(A1:A9)` into `@A1:A9`, where one operand stands in the brackets. */
export function withSigns(tokens: readonly FormulaToken[]): readonly FormulaToken[] {
  const result: FormulaToken[] = [];
  for (let at = 0; at < tokens.length; at++) {
    const token = tokens[at];
    if (token === undefined) break;
    const sign = token.kind === "call" ? SIGNS[withoutPrefix(token.text).toUpperCase()] : undefined;
    const close = sign === undefined ? at : closingOf(tokens, at + 1);
    const inner = tokens.slice(at + 2, close);
    if (sign === undefined || operandEnd(inner, 0) !== inner.length || inner.length === 0) {
      result.push(token);
      continue;
    }
    if (sign === "at") result.push({ kind: "operator", text: "@" });
    result.push(...withSigns(inner));
    if (sign === "spill") result.push({ kind: "spill", text: "#" });
    at = close;
  }
  return result;
}

/** Turns `@A1:A9` into `SINGLE(A1:A9)`. */
export function intersectionAsCall(tokens: readonly FormulaToken[]): readonly FormulaToken[] {
  let result = tokens;
  for (let at = tokens.length - 1; at >= 0; at--) {
    if (result[at]?.kind !== "operator" || result[at]?.text !== "@") continue;
    const end = operandEnd(result, at + 1);
    if (end > at + 1) result = replaced(result, at, end, call("SINGLE", result.slice(at + 1, end)));
  }
  return result;
}

/** Turns `A1#` into `ANCHORARRAY(A1)`. */
function spillAsCall(tokens: readonly FormulaToken[]): readonly FormulaToken[] {
  let result = tokens;
  for (let at = tokens.length - 1; at > 0; at--) {
    if (result[at]?.kind !== "spill" || !["reference", "name"].includes(result[at - 1]?.kind ?? "")) continue;
    const start = result[at - 2]?.kind === "sheet" ? at - 2 : at - 1;
    result = replaced(result, start, at + 1, call("ANCHORARRAY", result.slice(start, at)));
  }
  return result;
}

function replaced(
  tokens: readonly FormulaToken[],
  start: number,
  end: number,
  by: readonly FormulaToken[],
): readonly FormulaToken[] {
  return [...tokens.slice(0, start), ...by, ...tokens.slice(end)];
}

function call(name: string, inner: readonly FormulaToken[]): readonly FormulaToken[] {
  return [{ kind: "call", text: name }, { kind: "open", text: "(" }, ...inner, { kind: "close", text: ")" }];
}

/** Position behind the operand that begins at `start`: a reference, name, table area, call or bracketed part. */
function operandEnd(tokens: readonly FormulaToken[], start: number): number {
  let at = start;
  if (tokens[at]?.kind === "sheet") at++;
  switch (tokens[at]?.kind) {
    case "reference":
      at++;
      break;
    case "name":
      at += tokens[at + 1]?.kind === "structure" ? 2 : 1;
      break;
    case "structure":
      at++;
      break;
    case "call":
      at = closingOf(tokens, at + 1) + 1;
      break;
    case "open":
      at = closingOf(tokens, at) + 1;
      break;
    default:
      return start;
  }
  return tokens[at]?.kind === "spill" ? at + 1 : at;
}
