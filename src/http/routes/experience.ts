import { z } from 'zod';
import { startingExperience, type Draw } from '../../core/forecast/experience.js';
import { classNameOf, experienceFrom, GROUPS, type FittedExperience } from '../../core/forecast/fit.js';
import { itemAt } from '../../core/items.js';
import type { ExperienceVersion } from '../../store/contract/experience.js';
import { STAFF } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { listProblems } from '../problems.js';
import { answerJson } from '../schemas.js';
import { instant } from '../../core/vocabulary/quantities.js';

const Parameters = z.record(z.string(), z.number()).meta({
  description:
    'Means over the posterior draws. Rates are in mm per 1,000 km, lengths in mm, daily distances in km.',
});
const ExperienceGroup = z
  .strictObject({
    name: z.string().meta({
      description: 'The group: front or rear axles, friction or regenerative braking, discs or drums.',
    }),
    vehicles: z.number().meta({ type: 'integer' }),
    readings: z.number().meta({ type: 'integer' }),
    models: z.array(z.strictObject({ model: z.string(), vehicles: z.number().meta({ type: 'integer' }) })),
    correlation: z
      .number()
      .meta({ description: 'Correlation of the log wear rate with the log distance a day.' }),
    pads: Parameters,
    usage: Parameters,
  })
  .meta({ id: 'ExperienceGroup' });
const Experience = z
  .strictObject({
    version: z.number().meta({ type: 'integer' }),
    createdAt: instant,
    vehicles: z.number().meta({ type: 'integer' }),
    groups: z.array(ExperienceGroup),
  })
  .meta({ id: 'Experience' });
const ExperienceList = z.strictObject({ items: z.array(Experience), nextCursor: z.null() }).meta({
  id: 'ExperienceList',
  description: 'The latest fits, newest first. Empty if the starting values are still in force.',
});

export async function experienceRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  app.get(
    '/experience',
    {
      config: { roles: STAFF },
      schema: {
        operationId: 'listExperiences',
        summary: 'List the experience learned from the shop’s own vehicles',
        description:
          'Each fit with its groups, their parameters, and the number of vehicles and readings that it used.',
        tags: ['reference'],
        querystring: z.strictObject({}),
        response: {
          200: answerJson(ExperienceList, 'The fits.', { items: [], nextCursor: null }),
          ...listProblems,
        },
      },
    },
    async () => ({ items: (await store.experience.list()).map(answer), nextCursor: null }),
  );
}

function answer({ version, fitted, createdAt }: ExperienceVersion): z.infer<typeof Experience> {
  return { version, createdAt, vehicles: fitted.vehicles, groups: groupsOf(fitted, version) };
}

function groupsOf(fitted: FittedExperience, version: number): z.infer<typeof ExperienceGroup>[] {
  return GROUPS.flatMap((axleClass) => {
    const experience = experienceFrom(fitted, { axleClass, model: null, version });
    const name = classNameOf(axleClass);
    const fittedClass = fitted.classes[name];
    if (!fittedClass || experience.name === startingExperience(axleClass).name) return [];
    const { vehicles, readings, vehiclesByModel, correlation } = fittedClass;
    return [
      {
        name,
        vehicles,
        readings,
        models: Object.entries(vehiclesByModel).map(([model, count]) => ({ model, vehicles: count })),
        correlation,
        pads: meanOf(experience.pads),
        usage: meanOf(experience.usage),
      },
    ];
  });
}

function meanOf<Parameters extends object>(draws: readonly Draw<Parameters>[]): Record<string, number> {
  const names = Object.keys(itemAt(draws, 0).parameters) as (keyof Parameters & string)[];
  return Object.fromEntries(
    names.map((name) => [
      name,
      Number(
        draws
          .reduce((sum, { weight, parameters }) => sum + weight * Number(parameters[name]), 0)
          .toPrecision(5),
      ),
    ]),
  );
}
