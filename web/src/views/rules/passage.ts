// Changes of a text that somebody else changes too.

/** What `mine` changes in `from`, changed in `over` instead; null when its place is not found. */
export function moved_over(from: string, mine: string, over: string): string | null {
  if (over === from) return mine;
  const least = Math.min(from.length, mine.length);
  let start = 0;
  while (start < least && from[start] === mine[start]) start++;
  let end = 0;
  while (end < least - start && from[from.length - 1 - end] === mine[mine.length - 1 - end]) end++;
  const context = 80;
  const before = from.slice(Math.max(0, start - context), start);
  const after = from.slice(from.length - end, from.length - end + context);
  const was = before + from.slice(start, from.length - end) + after;
  const at = over.indexOf(was);
  if (was === '' || at < 0 || over.includes(was, at + 1)) return null;
  const now = before + mine.slice(start, mine.length - end) + after;
  return over.slice(0, at) + now + over.slice(at + was.length);
}

/** Where line `line`, counted from 1, begins and ends. */
export function line_in(text: string, line: number): { from: number; to: number } {
  let from = 0;
  for (let i = 1; i < line; i++) {
    const next = text.indexOf('\n', from);
    if (next < 0) break;
    from = next + 1;
  }
  const end = text.indexOf('\n', from);
  return { from, to: end < 0 ? text.length : end };
}
