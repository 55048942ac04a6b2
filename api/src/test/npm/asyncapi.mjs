// Reads asyncapi.json of this folder with the parser of AsyncAPI and that of Avro schemas in it. Answers with the
// errors, and with those of a broken document, as JSON.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { Parser } = require('@asyncapi/parser');
const { AvroSchemaParser } = require('@asyncapi/avro-schema-parser');

const parser = new Parser();
parser.registerSchemaParser(AvroSchemaParser());

const errors = async (document) =>
  (await parser.parse(document)).diagnostics
    .filter(({ severity }) => severity === 0)
    .map(({ code, message, path }) => `${code} ${message} ${path.join('.')}`);

const text = readFileSync('asyncapi.json', 'utf8');
const broken = JSON.parse(text);
broken.operations.factsWritten.action = 'shout';
const { document } = await parser.parse(text);
console.log(
  JSON.stringify({
    errors: await errors(text),
    broken: await errors(JSON.stringify(broken)),
    channels: document?.channels().all().map((channel) => channel.address()) ?? [],
    messages: document?.messages().all().length ?? 0,
  }),
);
