import { tokenize } from "./tokens";

const WHOLE = new Set(["text", "sheet", "structure", "error"]);

/**
 * A formula as a file keeps it, from one with decimal commas whose arguments are parted by semicolons. Undefined for a
 * formula without such a semicolon: its commas part arguments.
 *
 * @param formula without its equals sign
 */
export function pointForm(formula: string): string | undefined {
  let braces = 0;
  let isCommaForm = false;
  const changed = (sign: string): string => {
    if (sign === "{") braces += 1;
    if (sign === "}") braces -= 1;
    if (braces > 0 && sign === "\\") return ",";
    if (sign === ",") return ".";
    if (sign !== ";" || braces > 0) return sign;
    isCommaForm = true;
    return ",";
  };
  const parts = tokenize(formula).map(({ kind, text }) =>
    WHOLE.has(kind) ? text : [...text].map(changed).join(""),
  );
  return isCommaForm ? parts.join("") : undefined;
}

/**
 * A formula as a reader with decimal commas types it, from one as a file keeps it.
 *
 * @param formula without its equals sign
 */
export function commaForm(formula: string): string {
  let braces = 0;
  return tokenize(formula)
    .map(({ kind, text }) => {
      if (text === "{") braces += 1;
      if (text === "}") braces -= 1;
      if (kind === "number") return text.replace(".", ",");
      if (kind === "separator" && text === ",") return braces > 0 ? "\\" : ";";
      return text;
    })
    .join("");
}
