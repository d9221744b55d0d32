import { defineConfig } from 'drizzle-kit';

export default defineConfig({
  dialect: 'postgresql',
  schema: './src/store/engine/postgres/schema.ts',
  out: './migrations/postgres',
});
