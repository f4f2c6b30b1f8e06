import { catalogue } from "../functions/catalogue";
import { engineFunctions } from "../sheet/catalogue-functions";
import type { SheetEngine } from "../sheet/engine";
import { UniverEngine } from "../sheet/univer-engine";

/** The engine with every function of the catalogue: the same that computes without a page. */
export function makeEngine(): SheetEngine {
  return new UniverEngine(engineFunctions(catalogue));
}
