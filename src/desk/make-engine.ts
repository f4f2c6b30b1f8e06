import { catalogue } from "../functions/catalogue";
import { engineFunctions } from "../sheet/catalogue-functions";
import type { SheetEngine } from "../sheet/engine";
import { UniverEngine } from "../sheet/univer-engine";
// In one piece with the engine: a page that is open while a new version is served must not fetch a part of that one.
import "../sheet/univer-formulas";

/** The engine with every function of the catalogue: the same that computes without a page. */
export function makeEngine(): SheetEngine {
  return new UniverEngine(engineFunctions(catalogue));
}

/** The same for a rehearsal, without Univer: to make a second one takes more than a rehearsal gains. */
export function makeRehearsalEngine(): SheetEngine {
  return new UniverEngine(engineFunctions(catalogue), { isWithoutUniver: true });
}
