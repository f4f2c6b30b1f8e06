declare module "xlsx-calc" {
  interface Calculator {
    (workbook: object): void;
    import_functions(functions: Readonly<Record<string, unknown>>): void;
  }
  const calculator: Calculator;
  export default calculator;
}
