import { withStore } from './withStore.js';

/** `npm run vacuum`: rewrites the database file to give unused space back to the file system. */
await withStore(
  'Usage:\n  vacuum   rewrites the database file and frees its unused space',
  async (store, args) => {
    if (args.length > 0) return null;
    await store.retention.vacuum();
    return 'rewrote the database file';
  },
);
