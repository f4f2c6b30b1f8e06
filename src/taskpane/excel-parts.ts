async function partsOf(
  context: Excel.RequestContext,
  namespace: string,
): Promise<readonly Excel.CustomXmlPart[]> {
  const parts = context.workbook.customXmlParts.getByNamespace(namespace);
  parts.load("items/id");
  await context.sync();
  // eslint-disable-next-line office-addins/load-object-before-read -- "items/id" above loads them
  return parts.items;
}

/** The part of a namespace that is kept in the workbook. */
export async function readPart(
  context: Excel.RequestContext,
  namespace: string,
): Promise<string | undefined> {
  const [part] = await partsOf(context, namespace);
  if (part === undefined) return undefined;
  const xml = part.getXml();
  await context.sync();
  // eslint-disable-next-line office-addins/load-object-before-read -- a ClientResult has no load, sync alone fills it
  return xml.value;
}

/** Keeps a part in the workbook, or removes it. */
export async function writePart(
  context: Excel.RequestContext,
  namespace: string,
  xml: string | undefined,
): Promise<void> {
  const [part, ...others] = await partsOf(context, namespace);
  for (const other of others) other.delete();
  if (xml === undefined) part?.delete();
  else if (part === undefined) context.workbook.customXmlParts.add(xml);
  else part.setXml(xml);
  await context.sync();
}
