import ts from "typescript";

// What only help and tests read; Excel loads functions.js with every workbook, so it goes without them.
const HELP = new Set(["asks", "source", "limits", "examples", "failures"]);

function isDefinition(node) {
  return ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === "define";
}

function isHelp(property) {
  return ts.isPropertyAssignment(property) && ts.isIdentifier(property.name) && HELP.has(property.name.text);
}

/** A TypeScript transformer that leaves the help texts out of every `define({ ... })`. */
export function stripHelp(context) {
  const visit = (node) => {
    if (isDefinition(node) && node.arguments[0] && ts.isObjectLiteralExpression(node.arguments[0])) {
      const kept = node.arguments[0].properties.filter((property) => !isHelp(property));
      const bare = context.factory.createObjectLiteralExpression(kept, true);
      return context.factory.updateCallExpression(node, node.expression, undefined, [bare]);
    }
    return ts.visitEachChild(node, visit, context);
  };
  return (file) => ts.visitNode(file, visit);
}
