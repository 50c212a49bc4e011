import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    projects: [
      { test: { name: 'unit', include: ['test/unit/**/*.test.ts'], environment: 'node' } },
      {
        test: {
          name: 'embed',
          include: ['test/embed/**/*.test.ts'],
          environment: 'node',
          testTimeout: 60_000,
          hookTimeout: 60_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          name: 'consumers',
          include: ['test/consumers/*.test.ts'],
          environment: 'node',
          testTimeout: 60_000,
          hookTimeout: 400_000,
        },
      },
    ],
  },
});
