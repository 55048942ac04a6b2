// Reads EPCIS documents, one a line, and answers each with the verdict of epcis2.js, one a line.
import { createInterface } from 'node:readline';
import { createRequire } from 'node:module';

const { setup, validateEpcisDocument } = createRequire(import.meta.url)('epcis2.js');
setup({ checkExtensions: true });

for await (const line of createInterface({ input: process.stdin })) {
  const { success, errors } = validateEpcisDocument(JSON.parse(line), false);
  console.log(success ? 'valid' : `invalid: ${errors.join('; ')}`);
}
