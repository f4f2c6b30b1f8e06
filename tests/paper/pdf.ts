/** What a PDF file says of its pages, as far as it stands in plain sight (ISO 32000-1, 7.7.3.3). */
export function pdfPages(pdf: Uint8Array): { readonly count: number; readonly size: readonly number[] } {
  const text = Buffer.from(pdf).toString("latin1");
  const [, box = ""] = /\/MediaBox\s*\[([^\]]*)\]/.exec(text) ?? [];
  return {
    count: (text.match(/\/Type\s*\/Page\b/g) ?? []).length,
    size: box.trim().split(/\s+/).map(Number).slice(2),
  };
}
