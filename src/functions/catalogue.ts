import { cautions } from "./care/cautions";
import type { CatalogueFunction } from "./define";
import { airLitres } from "./gas/air-litres";
import { inches } from "./help/inches";
import { metres } from "./help/metres";
import { modelVersion } from "./help/model-version";

/** Every function, in the order of help: the table of contents. */
export const catalogue: readonly CatalogueFunction[] = [airLitres, cautions, metres, inches, modelVersion];

const byName = new Map(catalogue.map((fn) => [fn.name, fn]));

/** The function of a name without namespace, any case. */
export function functionNamed(name: string): CatalogueFunction | undefined {
  return byName.get(name.toUpperCase());
}
