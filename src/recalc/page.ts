import { join } from "node:path";
import { serveFolder } from "./serve";

const PORT = 3000;

const { address } = await serveFolder(join(process.cwd(), "dist", "desk"), PORT);
process.stdout.write(`The spreadsheet page with these functions is at ${address} (Ctrl+C stops it)\n`);
process.stdout.write(`Every function with its arguments and worked examples: ${address}reference.html\n`);
