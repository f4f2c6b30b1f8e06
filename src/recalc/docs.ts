import { readFileSync, writeFileSync } from "node:fs";
import { catalogue } from "../functions/catalogue";
import { readmeWithTable } from "../functions/reference";

const readme = readFileSync("README.md", "utf8");
const made = readmeWithTable(readme, catalogue);
if (made !== readme) writeFileSync("README.md", made);
process.stdout.write(
  made === readme ? "README.md is up to date\n" : "README.md has its function table made anew\n",
);
