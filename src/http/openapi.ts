import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import type { FastifyInstance } from 'fastify';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import { REFERENCE_STYLES } from '../render/pages/referenceStyles.js';
import { simplify, type Document } from './documentShape.js';
import { refuseOtherMethods } from './methods.js';

type Content = Record<string, { example?: unknown }>;
type Responses = Record<string, { headers?: object; content?: Content }>;

/** The type provider keeps only the response schemas; this restores headers and examples. */
const withHeadersAndExamples: typeof jsonSchemaTransform = (input) => {
  const transformed = jsonSchemaTransform(input);
  const declared = (input.schema.response ?? {}) as Responses;
  const kept = (transformed.schema as { response?: Responses }).response ?? {};
  for (const [status, { headers, content = {} }] of Object.entries(declared)) {
    if (headers) kept[status]!.headers = headers;
    for (const [type, { example }] of Object.entries(content)) {
      const target = kept[status]?.content?.[type];
      if (target && example !== undefined)
        target.example = typeof example === 'function' ? (example as () => unknown)() : example;
    }
  }
  return transformed;
};

const NO_ICON = '<svg xmlns="http://www.w3.org/2000/svg"/>';

export async function openApi(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Brake wear service',
        version: '1.0.0',
        contact: { name: 'Contributors of the brake wear service' },
        license: { name: 'MIT', identifier: 'MIT' },
        description:
          'Stores vehicles, visits and brake measurements. Computes how fast pads wear, when they will reach their limit and how much rotor is left. The answers support a decision and do not make it: the maker’s instructions, local law and licensed practice come first.',
      },
      servers: [{ url: '/' }],
      tags: [
        { name: 'vehicles', description: 'Vehicles and the specifications of their brakes.' },
        { name: 'visits', description: 'Visits: what was measured, found and done.' },
        { name: 'wear', description: 'Wear rates, forecast dates and rotor margins of one vehicle.' },
        {
          name: 'reports',
          description:
            'Axles that are due, axles without a forecast, parts demand, and the accuracy of past forecasts.',
        },
        { name: 'history', description: 'Every version of visits and vehicles: who wrote it, when and why.' },
        {
          name: 'imports',
          description: 'Imports of visits and vehicles. The server imports a whole file or nothing of it.',
        },
        {
          name: 'exports',
          description: 'Exports of all visits and vehicles, in the format that the imports accept.',
        },
        {
          name: 'webhooks',
          description: 'Webhook endpoints, to which the server posts signed events, and their deliveries.',
        },
        {
          name: 'reference',
          description:
            'The shop’s policy and gauges, the legal limits on file, and the experience learned from its own vehicles.',
        },
        { name: 'keys', description: 'Browser sessions signed in with an API key.' },
        { name: 'health', description: 'Liveness and readiness checks.' },
      ],
      components: {
        securitySchemes: { key: { type: 'http', scheme: 'bearer', description: 'An API key.' } },
      },
      security: [{ key: [] }],
    },
    transform: withHeadersAndExamples,
    transformObject: (input) => simplify(jsonSchemaTransformObject(input) as Document) as never,
  });
  await app.register(swaggerUi, {
    routePrefix: '/docs',
    staticCSP: true,
    // Without TLS on a local network, this directive would make the browser load the page's scripts over https, which
    // fails.
    transformStaticCSP: (policy) => policy.replace(/\s*upgrade-insecure-requests;?/, ''),
    // Hides the bar and logo of the documentation viewer.
    uiConfig: { layout: 'BaseLayout' },
    logo: null as never,
    theme: {
      title: 'Brake wear service: reference',
      css: [{ filename: 'reference.css', content: REFERENCE_STYLES }],
      favicon: [{ filename: 'none.svg', rel: 'icon', type: 'image/svg+xml', sizes: 'any', content: NO_ICON }],
    },
  });
  app.get('/openapi.json', { schema: { hide: true } }, async () => app.swagger());
  refuseOtherMethods(app, new Map([['/openapi.json', new Set(['GET', 'HEAD'])]]));
}
