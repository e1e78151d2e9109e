// The program counts lines and columns from 1, in code points; the editor counts UTF-16 units from 0.
export function offset(doc, line, column) {
  if (line < 1) return 0;
  if (line > doc.lines) return doc.length;
  const row = doc.line(line);
  let units = 0, seen = 1;
  for (const sign of row.text) {
    if (seen++ >= column) break;
    units += sign.length;
  }
  return row.from + units;
}
export function place(doc, at) {
  const row = doc.lineAt(at);
  return { line: row.number, column: [...row.text.slice(0, at - row.from)].length + 1 };
}

// The smallest change that makes one text of another, so that the cursor and what undo knows stay in place.
export function difference(now, then) {
  let a = 0, b = 0;
  while (a < now.length && a < then.length && now[a] === then[a]) a++;
  while (b < now.length - a && b < then.length - a && now[now.length - 1 - b] === then[then.length - 1 - b]) b++;
  return a === now.length && a === then.length ? null : { from: a, to: now.length - b, insert: then.slice(a, then.length - b) };
}

// As the program applies the edits of a suggestion: in a line the first `old` becomes `new`; without `old`, `new`
// is a line after it.
export function edited(text, edits) {
  const rows = text.split("\n").map((row) => [row]);
  for (const edit of edits) {
    const row = rows[edit.line - 1];
    if (edit.old === "") row.push(edit.new);
    else row[0] = row[0].replace(edit.old, () => edit.new);
  }
  return rows.flat().join("\n");
}
