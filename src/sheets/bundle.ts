/** What the generated script keeps in its one variable. */
export { call } from "./calls";
export * from "./menu";
