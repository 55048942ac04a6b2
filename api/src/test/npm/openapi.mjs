// Holds openapi.json of this folder against two linters, makes a client of it, compiles that and has it ask a server.
// Answers with what was found, as JSON.
import { execFile } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { promisify } from 'node:util';

const run = promisify(execFile);
const settings = {
  maxBuffer: 1 << 28,
  env: { ...process.env, REDOCLY_TELEMETRY: 'off', REDOCLY_SUPPRESS_UPDATE_NOTICE: 'true' },
};

/** What a program prints, whatever it says by its exit code. */
const output = async (program, ...args) => {
  try {
    return (await run(`node_modules/.bin/${program}`, args, settings)).stdout;
  } catch (failed) {
    if (!failed.stdout) throw failed;
    return failed.stdout;
  }
};

writeFileSync('openapi-broken.json', '{"openapi": "3.1.0", "info": {}, "paths": {}}');
writeFileSync('spectral.json', '{"extends": "spectral:oas"}');

const redocly = async (file) =>
  JSON.parse(await output('redocly', 'lint', file, '--format=json', '--max-problems=1000'))
    .problems.filter(({ severity }) => severity === 'error')
    .map(({ ruleId, message, location }) => `${ruleId} ${message} ${location[0]?.pointer}`);

const spectral = async (file) =>
  JSON.parse(await output('spectral', 'lint', file, '-r', 'spectral.json', '-f', 'json', '--quiet'))
    .filter(({ severity }) => severity === 0)
    .map(({ code, message, path }) => `${code} ${message} ${path.join('.')}`);

const client = async () => {
  await run('node_modules/.bin/openapi-typescript', ['openapi.json', '-o', 'interface.mts'], settings);
  const target = ['--strict', '--skipLibCheck', '--target', 'es2022', '--module', 'nodenext'];
  await run('node_modules/.bin/tsc', [...target, 'client.mts'], settings).catch((failed) => {
    throw new Error(failed.stdout);
  });
  return JSON.parse((await run('node', ['client.mjs', process.argv[2]], settings)).stdout);
};

const found = await Promise.all([
  redocly('openapi.json'),
  spectral('openapi.json'),
  redocly('openapi-broken.json'),
  spectral('openapi-broken.json'),
  client(),
]);
console.log(
  JSON.stringify({
    redocly: found[0],
    spectral: found[1],
    brokenIsSeenBy: found.slice(2, 4).filter((errors) => errors.length > 0).length,
    client: found[4],
  }),
);
