import { defineConfig } from 'drizzle-kit';

export default defineConfig({
  dialect: 'sqlite',
  schema: './src/store/engine/sqlite/schema.ts',
  out: './migrations',
});
