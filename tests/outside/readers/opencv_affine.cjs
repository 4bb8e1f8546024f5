// Fits an affine map with OpenCV (npm: opencv-wasm, BSD-3-Clause), whose estimateAffine2D leaves
// out what does not fit (RANSAC) and refines the map on the rest. Arguments: the folder of the npm
// packages, a file with a line "x y x' y'" for each pair, the distance within which a pair fits.
// Prints a c e b d f of x' = ax + cy + e, y' = bx + dy + f, then 1 or 0 for each pair: kept or not.
const fs = require('fs');
const path = require('path');
const [folder, file, reach] = process.argv.slice(2);
const {cv} = require(path.join(folder, 'opencv-wasm'));

function fit() {
  const pairs = fs.readFileSync(file, 'utf8').trim().split('\n').map((line) => line.split(' ').map(Number));
  const places = (from) => cv.matFromArray(pairs.length, 1, cv.CV_32FC2, pairs.flatMap((p) => p.slice(from, from + 2)));
  const kept = new cv.Mat();
  const RANSAC = 8;
  const map = cv.estimateAffine2D(places(0), places(2), kept, RANSAC, Number(reach), 5000, 0.999, 50);
  console.log(Array.from(map.data64F).join(' '));
  console.log(Array.from(kept.data).join(' '));
  process.exit(0);
}
if (cv.Mat) fit();
else cv.onRuntimeInitialized = fit;
