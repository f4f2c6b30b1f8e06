import { catalogue } from "../functions/catalogue";
import { customFunctionsMetadata } from "../functions/metadata";

/** The content of functions.json, taken from the built bundle, which puts its own origin in place of this one. */
export const metadata = customFunctionsMetadata(catalogue, "https://localhost:3000/reference.html");
