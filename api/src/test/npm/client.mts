// A client as anybody would write one: the types are made of the OpenAPI document, and the compiler holds it to them.
import createClient from 'openapi-fetch';
import type { components, paths } from './interface.mjs';

declare const process: { argv: string[]; env: Record<string, string> };

const api = createClient<paths>({
  baseUrl: process.argv[2]!.replace(/\/$/, ''),
  headers: { Authorization: process.env['AUTHORIZATION']! },
});

const page = await api.GET('/api/v1/lots', { params: { query: { size: 1, state: ['FIT'] } } });
const all = await api.GET('/api/v1/lots', { params: { query: { size: 1 } } });
const id = page.data?.items?.[0]?.id ?? '';
const lot = await api.GET('/api/v1/lots/{id}', { params: { path: { id } } });

const fact: components['schemas']['MoistureTest'] = {
  type: 'MoistureTest',
  header: {
    factId: 'generated-client',
    recordedBy: 'everything',
    happenedAt: '2026-09-02T10:00:00Z',
    recordedAt: '2026-09-02T10:00:00Z',
    sourceDocument: 'report 1',
  },
  lotId: id,
  sampleId: 'S-1',
  laboratoryId: 'ENT-LAB-TWO',
  moisturePercent: -1,
};
const refused = await api.POST('/api/v1/facts', { body: fact });

console.log(
  JSON.stringify({
    lots: all.data?.total,
    gates: lot.data?.gates?.length,
    problem: refused.error?.type,
  }),
);
