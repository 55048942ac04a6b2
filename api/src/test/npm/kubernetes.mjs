// Holds manifests, one JSON object a line, against the schemas of Kubernetes as the package kubernetes-models has
// them: their values by the schema, their names by the types, which know no others. Answers with the faults as JSON.
import { execFile } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { promisify } from 'node:util';

const require = createRequire(import.meta.url);
const run = promisify(execFile);

const manifests = readFileSync('manifests.jsonl', 'utf8').trim().split('\n').map((line) => JSON.parse(line));
const faults = [];
const typed = manifests.map((manifest, index) => {
  const { apiVersion, kind } = manifest;
  const module = `kubernetes-models/${apiVersion}/${kind}`;
  try {
    new (require(module)[kind])(manifest).validate();
  } catch (refused) {
    faults.push(`${kind}: ${refused.message}`);
  }
  return `import { type I${kind} as Kind${index} } from '${module}';\nexport const manifest${index}: Kind${index} = ${JSON.stringify(manifest, null, 1)};`;
});
writeFileSync('manifests.mts', typed.join('\n'));
const settings = ['--strict', '--skipLibCheck', '--noEmit', '--target', 'es2022', '--module', 'nodenext'];
await run('node_modules/.bin/tsc', [...settings, 'manifests.mts']).catch((failed) => {
  faults.push(...failed.stdout.trim().split('\n'));
});
console.log(JSON.stringify(faults));
