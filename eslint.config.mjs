import parser from "@typescript-eslint/parser";
import officeAddins from "eslint-plugin-office-addins";
import tseslint from "typescript-eslint";

export default tseslint.config(
  { ignores: ["dist/", "coverage/", "reports/", "node_modules/", ".stryker-tmp/"] },
  {
    files: ["**/*.ts"],
    extends: [...tseslint.configs.strict, ...tseslint.configs.stylistic],
    rules: {
      "@typescript-eslint/no-non-null-assertion": "error",
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/restrict-template-expressions": "off",
      "no-restricted-globals": ["error", "alert", "confirm", "prompt"],
      eqeqeq: ["error", "always"],
    },
  },
  {
    files: ["src/taskpane/**/*.ts", "src/addin/**/*.ts"],
    plugins: { "office-addins": officeAddins },
    languageOptions: { parser, ecmaVersion: 2022 },
    rules: {
      "office-addins/call-sync-after-load": "error",
      "office-addins/call-sync-before-read": "error",
      "office-addins/load-object-before-read": "error",
      "office-addins/test-for-null-using-isNullObject": "error",
      "office-addins/no-context-sync-in-loop": "error",
      "office-addins/no-empty-load": "error",
      "office-addins/no-navigational-load": "error",
      "office-addins/no-office-initialize": "error",
    },
  },
);
