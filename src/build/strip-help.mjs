import ts from "typescript";

// What only help, search and tests read: Excel loads functions.js with every workbook, so it goes without them.
const HELP = new Set(["text", "asks", "source", "limits", "caution", "examples", "failures"]);

function isHelp(property) {
  return ts.isPropertyAssignment(property) && ts.isIdentifier(property.name) && HELP.has(property.name.text);
}

/** A TypeScript transformer that leaves the help texts out of every object of the definitions in `src/functions`. */
export function stripHelp(context) {
  const visit = (node) => {
    const visited = ts.visitEachChild(node, visit, context);
    if (!ts.isObjectLiteralExpression(visited) || !visited.properties.some(isHelp)) return visited;
    const kept = visited.properties.filter((property) => !isHelp(property));
    return context.factory.updateObjectLiteralExpression(visited, kept);
  };
  return (file) => (/src[\\/]functions[\\/]/.test(file.fileName) ? ts.visitNode(file, visit) : file);
}
