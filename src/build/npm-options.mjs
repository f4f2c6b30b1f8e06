// Options as they reach a command through npm, which takes those typed without "--" before them for its own.

const namesOf = (known, argument) =>
  known.find((option) => (option.endsWith("=") ? argument.startsWith(option) : argument === option));

/** What npm made of an option in the environment; undefined where it was not typed. */
function taken(option, env) {
  const [, no, name = "", takesValue] = /^--(no-)?([\w-]+)(=?)$/.exec(option) ?? [];
  const value = env[`npm_config_${name.replaceAll("-", "_")}`];
  if (no !== undefined) return value === "" ? option : undefined;
  if (takesValue === "") return value === "true" ? option : undefined;
  // With a space in place of "=" the value went among the files.
  return value === undefined ? undefined : option + (value === "true" ? "VALUE" : value);
}

/**
 * The options that npm took and did not hand on.
 *
 * @param known options of the command; one that takes a value ends in `=`
 */
export function takenByNpm(known, env, rest) {
  const handed = new Set(rest.map((argument) => namesOf(known, argument)));
  return known.filter((option) => !handed.has(option)).flatMap((option) => taken(option, env) ?? []);
}

/** The first argument that is none of the known options. */
export function unknownArgument(known, rest) {
  return rest.find((argument) => namesOf(known, argument) === undefined);
}
