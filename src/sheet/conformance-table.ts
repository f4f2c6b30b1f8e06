export const CONFORMANCE_BY_FILE = 0;
export const CONFORMANCE: readonly (readonly [
  name: string,
  equal: number,
  different: number,
  left: number,
])[] = [];
