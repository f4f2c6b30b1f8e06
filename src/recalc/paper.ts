import { existsSync } from "node:fs";
import { basename, dirname, extname, join } from "node:path";
import { catalogue } from "../functions/catalogue";
import { labelOf } from "../formula/scope";
import { paperDocument, sheetPaper } from "../paper/markup";
import { engineFunctions } from "../sheet/catalogue-functions";
import { recalculateWorkbook, type RecalculatedWorkbook } from "../sheet/recalculate";
import { openWorkbook, type OpenWorkbook } from "../workbook/read";
import { asksHelp, type CommandLine, commandLine, EXIT, exitCodeOf, readInput } from "./file-command";
import { CommandError, fileFault } from "./file-fault";
import { interrupt } from "./interrupt";
import { compressNatively } from "./native-compression";
import { computedPaper, PAPER_NAMES, sheetOfPaper } from "./paper-sheet";
import { printToPdf } from "./print-to-pdf";
import { checkTarget, writeWhole } from "./write-file";

const USAGE = "usage: npm run paper -- JOB.xlsx PAPER [EVENT] [OUT.pdf]";
const HELP = `${USAGE}

JOB.xlsx   the workbook; it is recalculated in memory and never written, moved or removed
PAPER      ${PAPER_NAMES.join(", ")}: the sheet that holds the PAPER_PLAN of that name, as it is set up to print;
           else the paper is computed from the tables of the workbook. Or the name of any sheet
EVENT      which event, where the workbook has several
OUT.pdf    where the paper goes, else "JOB PAPER.pdf"; what is there already is kept beside it

An installed Chrome, Chromium or Edge makes the PDF; CHROMIUM_PATH names another one.
The exit code is 0, or 1 where the paper holds errors or something to look at, or 2 where there is no paper.
`;

/** What of a workbook would be seen on paper and is not drawn. */
const SEEN: readonly string[] = [
  "pictures",
  "charts",
  "sparklines",
  "formats by condition",
  "texts in several fonts",
];

/** A request as it was typed. */
interface Request {
  readonly input: string;
  readonly paper: string;
  readonly event: string;
  readonly output: string;
}

function requestOf(files: readonly string[]): Request {
  const isPdf = (word: string): boolean => extname(word).toLowerCase() === ".pdf";
  const [input, paper, ...rest] = files;
  const [event = "", ...moreEvents] = rest.filter((word) => !isPdf(word));
  const [pdf, ...morePdfs] = rest.filter(isPdf);
  const isClear = moreEvents.length + morePdfs.length === 0;
  if (input === undefined || paper === undefined || isPdf(input) || isPdf(paper) || !isClear)
    throw new CommandError(USAGE);
  const words = [basename(input, extname(input)), paper, event].filter((word) => word !== "");
  const name = words.join(" ").replace(/[\\/:*?"<>|\p{Cc}]/gu, "_");
  return { input, paper, event, output: pdf ?? join(dirname(input), `${name}.pdf`) };
}

/** The workbook and the sheet in it that go on paper. */
function chosen(opened: OpenWorkbook, { paper, event }: Request): { workbook: OpenWorkbook; sheet: number } {
  const { model } = opened;
  const name = PAPER_NAMES.find((one) => one === paper.trim().toLowerCase());
  if (name !== undefined) {
    const sheet = sheetOfPaper(model, name, event);
    if (sheet !== undefined) return { workbook: opened, sheet };
    return { workbook: openWorkbook(computedPaper(model, name, event)), sheet: 0 };
  }
  const sheet = model.sheets.findIndex((one) => one.name.toLowerCase() === paper.toLowerCase());
  if (sheet >= 0) return { workbook: opened, sheet };
  const names = PAPER_NAMES.map((one) => `"${one}"`).join(", ");
  throw new CommandError(`paper must be one of ${names} or the name of a sheet, found "${paper}"`);
}

/** What a person has to look at before the paper is handed over. */
function troubles(
  result: RecalculatedWorkbook,
  { workbook, sheet }: ReturnType<typeof chosen>,
): readonly string[] {
  const { name = "", cells = [] } = workbook.model.sheets[sheet] ?? {};
  const errors = cells.flatMap(({ row, column, value }) =>
    typeof value === "object" && value !== null
      ? [{ place: labelOf({ sheet: name, row, column }), row, column, error: value.error }]
      : [],
  );
  const isOwn = result.sheetNames[sheet] === name;
  return errors.map(({ place, row, column, error }) => {
    const why = result.failing.find(
      (cell) => isOwn && cell.sheet === sheet && cell.row === row && cell.column === column,
    )?.sentence;
    return `${place} shows ${error}${why === undefined ? "" : `: ${why}`}`;
  });
}

async function paper(line: CommandLine): Promise<number> {
  if (asksHelp(line)) {
    process.stdout.write(HELP);
    return EXIT.done;
  }
  const request = requestOf(line.files);
  checkTarget(request.output);
  if (!existsSync(dirname(request.output))) throw fileFault({ code: "ENOENT" }, request.output, "written");
  const { bytes, mode } = readInput(request.input);
  const result = await recalculateWorkbook(bytes, engineFunctions(catalogue), { interrupt });
  const found = chosen(openWorkbook(result.bytes), request);
  const now = new Date();
  const running = {
    file: basename(request.input),
    date: now.toLocaleDateString(),
    time: now.toLocaleTimeString(),
  };
  const made = sheetPaper(found.workbook, found.sheet, running);
  const pdf = await printToPdf(paperDocument(made, `${request.paper} ${request.event}`.trim()));
  const previous = writeWhole(request.output, pdf, mode);
  process.stdout.write(`the paper is in ${request.output}\n`);
  if (previous !== undefined) process.stdout.write(`the file that was there is now ${previous}\n`);
  const looks = troubles(result, found);
  for (const trouble of looks) process.stdout.write(`${trouble}\n`);
  const unseen = found.workbook.model.undrawn?.filter((what) => SEEN.includes(what)) ?? [];
  if (unseen.length > 0)
    process.stdout.write(`the workbook also has ${unseen.join(", ")}, which no paper shows\n`);
  return looks.length > 0 ? EXIT.someLeft : EXIT.done;
}

compressNatively();
process.exitCode = await exitCodeOf(
  () => paper(commandLine(process.argv.slice(2), USAGE, [])),
  "could not make the paper",
);
