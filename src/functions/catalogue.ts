import { anchorKilograms } from "./care/anchor-kilograms";
import { anchorPlan } from "./care/anchor-plan";
import { cautions } from "./care/cautions";
import { oxygenPercent } from "./care/oxygen-percent";
import { tetherGrams } from "./care/tether-grams";
import { windNewtons } from "./care/wind-newtons";
import { archHeightMetres } from "./counting/arch-height-metres";
import { archMetres } from "./counting/arch-metres";
import { ballMetres } from "./counting/ball-metres";
import { columnAcrossMetres } from "./counting/column-across-metres";
import { columnMetres } from "./counting/column-metres";
import { columnPlanRows } from "./counting/column-plan";
import { countArch } from "./counting/count-arch";
import { countCeiling } from "./counting/count-ceiling";
import { countColumn } from "./counting/count-column";
import { countCover } from "./counting/count-cover";
import { countGarland } from "./counting/count-garland";
import { countNet } from "./counting/count-net";
import { countOutline } from "./counting/count-outline";
import { countRevolved } from "./counting/count-revolved";
import { countSleeves } from "./counting/count-sleeves";
import { countSphere } from "./counting/count-sphere";
import { countStrand } from "./counting/count-strand";
import { countWall } from "./counting/count-wall";
import { coverMetres } from "./counting/cover-metres";
import { mixMetres } from "./counting/mix-metres";
import { mixPlanRows } from "./counting/mix-plan";
import { netPlanRow } from "./counting/net-plan";
import { revolvedPlanRows } from "./counting/revolved-plan";
import { sizedInches } from "./counting/sized-inches";
import type { CatalogueFunction } from "./definition";
import { costPlanRows } from "./event/cost-plan";
import { goodsPlanRows } from "./event/goods-plan";
import { learnPlanRows } from "./event/learn-plan";
import { optionPlanRows } from "./event/option-plan";
import { paperPlanRows } from "./event/paper-plan";
import { stockPlanRows } from "./event/stock-plan";
import { workPlanRows } from "./event/work-plan";
import { partPlanRows } from "./event/part-plan";
import { readyPlanRows } from "./event/ready-plan";
import { airLitres } from "./gas/air-litres";
import { countCylindersToHire } from "./gas/count-cylinders";
import { countFromOneCylinder } from "./gas/count-from-cylinder";
import { countToLiftBalloons } from "./gas/count-to-lift";
import { cylinderLitres } from "./gas/cylinder-litres";
import { floatHours } from "./gas/float-hours";
import { foilLitres } from "./gas/foil-litres";
import { heliumLitres } from "./gas/helium-litres";
import { inflateInches } from "./gas/inflate-inches";
import { liftGrams } from "./gas/lift-grams";
import { eachRow } from "./help/each";
import { inches } from "./help/inches";
import { metres } from "./help/metres";
import { modelVersion } from "./help/model-version";
import { needsPlanRows } from "./palette/needs-plan";
import { paletteSplitCounts } from "./palette/palette-split";
import { patternSplitCounts } from "./palette/pattern-split";
import { similarPlanRows } from "./palette/similar-plan";
import { spiralPlanRows } from "./palette/spiral-plan";
import { marginOfPrice } from "./price/margin-of";
import { piecePlanRows } from "./price/piece-plan";
import { quotePlanRows } from "./price/quote-plan";
import { repricePlanRows } from "./price/reprice-plan";
import { sellingPrice } from "./price/sell-price";
import { countRolls } from "./ribbon/count-rolls";
import { gatherMetres } from "./ribbon/gather-metres";
import { ribbonMetres } from "./ribbon/ribbon-metres";
import { rollPlanRow } from "./ribbon/roll-plan";
import { wrapMetres } from "./ribbon/wrap-metres";
import { bagCost } from "./stock/bag-cost";
import { bagPlanRows } from "./stock/bag-plan";
import { buyCost } from "./stock/buy-cost";
import { buyPlanRows } from "./stock/buy-plan";
import { countWithSparesToTake } from "./stock/count-with-spares";
import { priceChangeRows } from "./stock/price-changes";
import { stockAfterRows } from "./stock/stock-after";
import { swapPlanRows } from "./stock/swap-plan";
import { buildHours } from "./work/build-hours";
import { countCrew } from "./work/count-crew";
import { countTrips } from "./work/count-trips";
import { hardwareItems } from "./work/hardware-plan";
import { inflateFromTime } from "./work/inflate-from";
import { startByTime } from "./work/start-by";
import { boxCubicMetres } from "./work/box-cubic-metres";
import { transportCubicMetres } from "./work/transport-cubic-metres";

/** Every function that does not call others by their names, in the order of help. */
const called: readonly CatalogueFunction[] = [
  partPlanRows,
  goodsPlanRows,
  costPlanRows,
  optionPlanRows,
  paperPlanRows,
  workPlanRows,
  stockPlanRows,
  learnPlanRows,
  readyPlanRows,
  countSphere,
  ballMetres,
  countCover,
  coverMetres,
  countColumn,
  columnMetres,
  columnAcrossMetres,
  columnPlanRows,
  countGarland,
  mixPlanRows,
  mixMetres,
  archMetres,
  archHeightMetres,
  countArch,
  countStrand,
  countWall,
  countCeiling,
  countNet,
  netPlanRow,
  countRevolved,
  revolvedPlanRows,
  countOutline,
  countSleeves,
  sizedInches,
  airLitres,
  heliumLitres,
  foilLitres,
  inflateInches,
  liftGrams,
  countToLiftBalloons,
  floatHours,
  cylinderLitres,
  countCylindersToHire,
  countFromOneCylinder,
  ribbonMetres,
  gatherMetres,
  wrapMetres,
  countRolls,
  rollPlanRow,
  paletteSplitCounts,
  patternSplitCounts,
  spiralPlanRows,
  needsPlanRows,
  similarPlanRows,
  countWithSparesToTake,
  bagPlanRows,
  bagCost,
  buyPlanRows,
  buyCost,
  stockAfterRows,
  priceChangeRows,
  swapPlanRows,
  buildHours,
  countCrew,
  startByTime,
  inflateFromTime,
  transportCubicMetres,
  boxCubicMetres,
  countTrips,
  hardwareItems,
  sellingPrice,
  marginOfPrice,
  quotePlanRows,
  piecePlanRows,
  repricePlanRows,
  tetherGrams,
  windNewtons,
  anchorKilograms,
  anchorPlan,
  oxygenPercent,
  cautions,
  metres,
  inches,
  modelVersion,
];

/** Every function, in the order of help: the table of contents. */
export const catalogue: readonly CatalogueFunction[] = [...called, eachRow(called)];

/** The functions that lists and help offer: all but those that another one has replaced. */
export const offered: readonly CatalogueFunction[] = catalogue.filter((fn) => fn.replacedBy === undefined);

const byName = new Map(catalogue.map((fn) => [fn.name, fn]));

/** The function of a name without namespace, any case. */
export function functionNamed(name: string): CatalogueFunction | undefined {
  return byName.get(name.toUpperCase());
}
