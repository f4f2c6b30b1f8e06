import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import webpack from "webpack";
import { Notices } from "./src/build/notices.mjs";
import {
  appsScript,
  copies,
  existingFiles,
  functionsJson,
  icons,
  madePages,
  manifest,
  precache,
  QuickMinifier,
} from "./src/build/plugins.mjs";
import { stripHelp } from "./src/build/strip-help.mjs";

const root = dirname(fileURLToPath(import.meta.url));
const source = (path) => join(root, "src", path);

// Else the one nearest to whichever file comes first counts, and that of a folder knows no file outside of it.
const configFile = join(root, "tsconfig.json");

const base = {
  mode: "production",
  context: root,
  devtool: false,
  resolve: { extensions: [".ts", ".mjs", ".js"] },
  module: {
    rules: [
      {
        test: /\.ts$/,
        loader: "ts-loader",
        options: { transpileOnly: true, configFile, compilerOptions: { noEmit: false } },
      },
    ],
  },
  performance: { hints: false },
  stats: "errors-warnings",
};

const withoutHelp = {
  test: /\.ts$/,
  issuerLayer: "cells",
  loader: "ts-loader",
  options: {
    transpileOnly: true,
    configFile,
    instance: "without-help",
    compilerOptions: { noEmit: false },
    getCustomTransformers: () => ({ before: [stripHelp] }),
  },
};

// Of the types nothing is checked here; esbuild takes them off in a tenth of the compiler's time.
const quick = {
  ...base,
  module: { rules: [{ test: /\.ts$/, loader: "esbuild-loader", options: { target: "es2022" } }] },
};

const styles = { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] };

const referenceBundle = {
  "reference-page": { import: source("functions/reference-page.ts"), library: { type: "commonjs2" } },
};
const referencePages = () =>
  madePages("reference-page.js", {
    "reference.html": "referencePage",
    "reference-comma.html": "referencePageWithCommas",
  });

const addin = (origin) => ({
  ...base,
  experiments: { layers: true },
  module: { rules: [{ oneOf: [withoutHelp, ...base.module.rules] }, styles] },
  name: "addin",
  target: ["web", "es2020"],
  entry: {
    functions: { import: source("addin/functions.ts"), layer: "cells" },
    metadata: { import: source("addin/metadata.ts"), library: { type: "commonjs2" } },
    taskpane: source("taskpane/taskpane.ts"),
    ...referenceBundle,
  },
  output: { path: join(root, "dist", "addin"), filename: "[name].js", clean: true },
  plugins: [
    functionsJson(origin),
    referencePages(),
    new MiniCssExtractPlugin(),
    new Notices(root),
    icons([16, 32, 64, 80]),
    manifest(join(root, "manifest.xml"), origin),
    copies({
      "taskpane.html": source("taskpane/taskpane.html"),
      "reference.css": source("desk/reference.css"),
    }),
  ],
});

const node = () => ({
  ...quick,
  name: "node",
  target: "node20",
  entry: {
    recalc: source("recalc/command.ts"),
    share: source("recalc/share.ts"),
    paper: source("recalc/paper.ts"),
    start: source("recalc/start.ts"),
    page: source("recalc/page.ts"),
    "answer-files": { import: source("recalc/answer-files.ts"), library: { type: "commonjs2" } },
    docs: source("recalc/docs.ts"),
    samples: source("recalc/samples.ts"),
    conformance: source("recalc/conformance.ts"),
  },
  output: {
    path: join(root, "dist", "node"),
    filename: "[name].cjs",
    chunkFilename: "[name].cjs",
    clean: true,
  },
  optimization: { minimize: false, splitChunks: { chunks: "all" } },
});

const desk = () => ({
  ...quick,
  name: "desk",
  target: ["web", "es2022"],
  entry: {
    desk: source("desk/desk.ts"),
    "offline-source": source("desk/offline.ts"),
    ...referenceBundle,
  },
  output: {
    path: join(root, "dist", "desk"),
    filename: "[name].js",
    chunkFilename: "[name].js",
    clean: true,
  },
  optimization: { chunkIds: "deterministic", minimizer: [new QuickMinifier("es2022")] },
  module: { rules: [...quick.module.rules, styles] },
  plugins: [
    new MiniCssExtractPlugin(),
    new Notices(root),
    // The grid's patterns for breaking words in seventy languages, which only a text document would load.
    new webpack.IgnorePlugin({
      resourceRegExp: /^\.\/(?!en-gb-)[\w-]+-[\w-]{8}\.js$/,
      contextRegExp: /engine-render/,
    }),
    icons([32, 80]),
    copies({ "index.html": source("desk/index.html"), "reference.css": source("desk/reference.css") }),
    referencePages(),
    copies(existingFiles(join(root, "sample-workbooks"), ["regatta-evening.xlsx"])),
    precache("offline-source.js", "offline.js"),
  ],
});

const sheets = () => ({
  ...base,
  name: "google-sheets",
  target: ["web", "es2019"],
  entry: {
    bundle: { import: source("sheets/bundle.ts"), library: { type: "commonjs2" } },
    code: { import: source("sheets/code.ts"), library: { type: "commonjs2" } },
    sidebar: source("sheets/sidebar.ts"),
  },
  output: { path: join(root, "dist", "google-sheets"), filename: "[name].js", clean: true },
  module: { rules: [...base.module.rules, styles] },
  optimization: { minimizer: [new QuickMinifier("es2019")] },
  plugins: [new MiniCssExtractPlugin(), appsScript()],
});

export default (environment = {}) => [addin(environment.origin), node(), desk(), sheets()];
