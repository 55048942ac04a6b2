// A foreign program brings one fact of a lot as the manual says: reads the schema that the site serves, registers
// it, asks for the latest, encodes, decodes and produces. Answers with what it found, as JSON.
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { COMPATIBILITY, SchemaRegistry, SchemaType } = require('@kafkajs/confluent-schema-registry');
const { Kafka, logLevel } = require('kafkajs');

const { BROKER, BROKER_USER, BROKER_PASSWORD, REGISTRY, REGISTRY_USER, REGISTRY_PASSWORD, SITE } = process.env;
const topic = 'kornspur.facts';
const fact = JSON.parse(process.argv[2]);

const registry = new SchemaRegistry({
  host: REGISTRY,
  auth: { username: REGISTRY_USER, password: REGISTRY_PASSWORD },
});
const schema = await (await fetch(`${SITE}asyncapi/schemas/LotDeclared.avsc`)).text();
const subject = `${topic}-org.kornspur.contract.LotDeclared`;
const registered = await registry.register(
  { type: SchemaType.AVRO, schema },
  { subject, compatibility: COMPATIBILITY.FULL_TRANSITIVE },
);
const latest = await registry.getLatestSchemaId(subject);
const otherLevel = await registry
  .register({ type: SchemaType.AVRO, schema }, { subject, compatibility: COMPATIBILITY.NONE })
  .then(() => 'taken', (refused) => refused.message);

const value = await registry.encode(latest, fact);
const decoded = await registry.decode(value);

const kafka = new Kafka({
  clientId: 'foreign',
  brokers: [BROKER],
  sasl: { mechanism: 'scram-sha-512', username: BROKER_USER, password: BROKER_PASSWORD },
  logLevel: logLevel.NOTHING,
});
const producer = kafka.producer({ allowAutoTopicCreation: false });
await producer.connect();
await producer.send({ topic, acks: -1, messages: [{ key: fact.header.factId, value }] });
await producer.disconnect();

console.log(JSON.stringify({ registered: registered.id, latest, otherLevel, decoded: decoded.lotId.toString() }));
