// Makes the page's three font files from the fonts of this repository: only the letters of
// European languages and the signs the page uses, as WOFF2. Run by hand when one of them changes.
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import subsetFont from 'subset-font';

const root = new URL('../../', import.meta.url);
const target = new URL('../src/fonts/', import.meta.url);

function range(first, last) {
  let text = '';
  for (let code = first; code <= last; code++) text += String.fromCodePoint(code);
  return text;
}
const signs = '‐‑–—‘’‚“”„…•′″‹›€−×→←↑↓≥≤²³½¼';
const letters = range(0x20, 0x7e) + range(0xa0, 0x17f) + signs;

for (const [from, to] of [
  ['assets/fonts/NotoSans-Regular.ttf', 'text-regular.woff2'],
  ['assets/fonts/NotoSans-Bold.ttf', 'text-bold.woff2'],
  ['examples/tidewrack/fonts/Vollkorn-Regular.ttf', 'head-regular.woff2'],
  ['examples/tidewrack/fonts/Vollkorn-Bold.ttf', 'head-bold.woff2'],
]) {
  const font = await subsetFont(readFileSync(new URL(from, root)), letters, {
    targetFormat: 'woff2',
  });
  writeFileSync(new URL(to, target), font);
  console.log(`${to}: ${(font.length / 1000).toFixed(1)} kB`);
}
copyFileSync(new URL('assets/fonts/OFL.txt', root), new URL('OFL-Noto-Sans.txt', target));
copyFileSync(
  new URL('examples/tidewrack/fonts/OFL-Vollkorn.txt', root),
  new URL('OFL-Vollkorn.txt', target),
);
