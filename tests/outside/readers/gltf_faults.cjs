// Checks a .glb file with the validator of the standard's makers (npm: gltf-validator, Apache-2.0)
// and prints a line for each thing it has to say, then how many errors, warnings and hints there are.
// Arguments: the folder of the npm packages, the file.
const fs = require('fs');
const [folder, file] = process.argv.slice(2);
const validator = require(require('path').join(folder, 'gltf-validator'));

validator.validateBytes(new Uint8Array(fs.readFileSync(file)), {maxIssues: 0}).then((report) => {
  const {numErrors, numWarnings, numInfos, numHints, messages} = report.issues;
  for (const {code, message, pointer} of messages) console.log(code, pointer, message);
  console.log('errors', numErrors, 'warnings', numWarnings, 'infos', numInfos, 'hints', numHints);
  const {animationCount, materialCount, totalTriangleCount, totalVertexCount} = report.info;
  console.log('animations', animationCount, 'materials', materialCount, 'triangles',
              totalTriangleCount, 'vertices', totalVertexCount);
}, (fault) => {
  console.log('unreadable', String(fault));
  process.exit(1);
});
