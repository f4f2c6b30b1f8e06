export const TRUSTED_FUNCTIONS: ReadonlySet<string> = new Set<string>([]);
