// CSV after RFC 4180, as far as the stand-in needs it.

export function read_csv(text) {
  const rows = [[]];
  let cell = '';
  let quoted = false;
  for (let at = 0; at < text.length; at++) {
    const letter = text[at];
    if (quoted && letter === '"' && text[at + 1] === '"') cell += text[++at];
    else if (letter === '"') quoted = !quoted;
    else if (!quoted && letter === ',') {
      rows.at(-1).push(cell);
      cell = '';
    } else if (!quoted && letter === '\n') {
      rows.at(-1).push(cell);
      cell = '';
      rows.push([]);
    } else if (letter !== '\r') cell += letter;
  }
  if (cell !== '' || rows.at(-1).length > 0) rows.at(-1).push(cell);
  return rows.filter((row) => row.length > 0);
}
