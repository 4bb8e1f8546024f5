// Puts a .gz beside each text file of dist/, so that the desk can hand it out as it lies there,
// and says how large the page is.
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

const PAGE_LIMIT = 400 * 1000; // bytes of our own code and of three.js, compressed
const dist = new URL('../dist/', import.meta.url).pathname;

function files(folder) {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? files(path) : [path];
  });
}

let code = 0;
for (const path of files(dist)) {
  if (!/\.(html|js|css|svg|json)$/.test(path)) continue;
  const packed = gzipSync(readFileSync(path), { level: 9 });
  writeFileSync(`${path}.gz`, packed);
  if (/\.(html|js|css)$/.test(path)) code += packed.length;
}
console.log(`page: ${(code / 1000).toFixed(1)} kB compressed (limit ${PAGE_LIMIT / 1000} kB)`);
if (code > PAGE_LIMIT) process.exit(1);
