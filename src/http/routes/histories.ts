import { z } from 'zod';
import { AuditEntry, VehicleVersion, VisitVersion } from '../../core/vocabulary/records.js';
import type { AuditLine, DeedEffect } from '../../store/contract/histories.js';
import { EVERYONE, OWNER } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { exampleAuditEntry, exampleVehicleVersion, exampleVisitVersion } from '../examples.js';
import { listOf, pagingQuery } from '../paging.js';
import { listProblems, resourceProblems } from '../problems.js';
import { answerJson, vehicleParams, visitParams } from '../schemas.js';

const VisitHistory = listOf(VisitVersion, 'VisitHistory');
const VehicleHistory = listOf(VehicleVersion, 'VehicleHistory');
const Audit = listOf(AuditEntry, 'Audit');
const Position = z.tuple([z.int()]);

export async function historyRoutes(app: ZodServer, { store, paging }: RouteContext): Promise<void> {
  app.get(
    '/visits/:visitId/history',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listVisitVersions',
        summary: 'List every version of a visit',
        description: 'Versions, earliest first: the visit at that version, who wrote it, when and why.',
        tags: ['history'],
        params: visitParams,
        querystring: z.strictObject(pagingQuery),
        response: {
          200: answerJson(VisitHistory, 'A page of versions.', {
            items: [exampleVisitVersion],
            nextCursor: null,
          }),
          ...resourceProblems,
        },
      },
    },
    async (request) => {
      const { visitId } = request.params;
      const page = paging.readPage(request.query, { visitId }, Position);
      const { items, next } = await store.histories.ofVisit(request.caller, visitId, page);
      return { items, nextCursor: paging.nextCursor(next, { visitId }) };
    },
  );

  app.get(
    '/vehicles/:vehicleId/history',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listVehicleVersions',
        summary: 'List every version of a vehicle',
        description:
          'Versions, earliest first: the vehicle at that version, who wrote it and when. This also works for a record that was merged into another.',
        tags: ['history'],
        params: vehicleParams,
        querystring: z.strictObject(pagingQuery),
        response: {
          200: answerJson(VehicleHistory, 'A page of versions.', {
            items: [exampleVehicleVersion],
            nextCursor: null,
          }),
          ...resourceProblems,
        },
      },
    },
    async (request) => {
      const { vehicleId } = request.params;
      const page = paging.readPage(request.query, { vehicleId }, Position);
      const { items, next } = await store.histories.ofVehicle(request.caller, vehicleId, page);
      return { items, nextCursor: paging.nextCursor(next, { vehicleId }) };
    },
  );

  app.get(
    '/audit',
    {
      config: { roles: OWNER },
      schema: {
        operationId: 'listAuditEntries',
        summary: 'List the audit log',
        description: 'Entries, earliest first: one per write, with the name of the key.',
        tags: ['history'],
        querystring: z.strictObject({
          since: z.iso.datetime({ offset: true }).optional().meta({
            description: 'An RFC 3339 instant. If missing, the list starts with the first entry.',
            example: '2026-03-02T00:00:00Z',
          }),
          ...pagingQuery,
        }),
        response: {
          200: answerJson(Audit, 'A page of the audit log.', {
            items: [exampleAuditEntry],
            nextCursor: null,
          }),
          ...listProblems,
        },
      },
    },
    async (request) => {
      const { limit, cursor, since } = request.query;
      const page = paging.readPage({ limit, cursor }, { since }, Position);
      const instant = since === undefined ? null : new Date(since).toISOString();
      const { items, next } = await store.histories.audit(instant, page);
      return { items: items.map(toEntry), nextCursor: paging.nextCursor(next, { since }) };
    },
  );
}

/** The HTTP method for each kind of change. */
const METHODS: Record<DeedEffect, string> = { act: 'POST', set: 'PUT', change: 'PATCH', remove: 'DELETE' };

const toEntry = ({ effect, ...line }: AuditLine): AuditEntry => ({
  ...line,
  method: effect && METHODS[effect],
});
