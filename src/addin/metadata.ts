import { catalogue } from "../functions/catalogue";
import { customFunctionsMetadata } from "../functions/metadata";

/** The content of functions.json, taken from the built bundle. */
export const metadata = customFunctionsMetadata(catalogue);
