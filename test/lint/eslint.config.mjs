import tseslint from 'typescript-eslint';
import { configs as lit } from 'eslint-plugin-lit';
import * as wc from 'eslint-plugin-wc';
import litA11y from 'eslint-plugin-lit-a11y';

const interopWc = wc.configs ?? wc.default.configs;

export default tseslint.config(
  { ignores: ['dist/**', 'node_modules/**'] },
  ...tseslint.configs.recommended,
  {
    files: ['components/**/*.ts'],
    ...lit['flat/recommended'],
  },
  {
    files: ['components/**/*.ts'],
    ...interopWc['flat/recommended'],
  },
  {
    files: ['components/**/*.ts'],
    plugins: { 'lit-a11y': litA11y },
    rules: litA11y.configs.recommended.rules,
  },
  {
    files: ['core/**/*.ts'],
    ignores: ['core/worker/**'],
    rules: {
      // The rooms of the core are pure: no DOM, no globals of a page or a worker.
      'no-restricted-globals': [
        'error',
        ...[
          'window',
          'document',
          'self',
          'navigator',
          'location',
          'fetch',
          'localStorage',
          'indexedDB',
          'setTimeout',
          'setInterval',
          'OffscreenCanvas',
          'createImageBitmap',
          'postMessage',
          'crypto',
          'performance',
        ],
      ],
    },
  },
  {
    files: ['core/mass/**/*.ts', 'core/value/**/*.ts'],
    rules: {
      // Masses and bands are the same in every engine.
      'no-restricted-properties': [
        'error',
        {
          object: 'Math',
          property: 'hypot',
          message: 'Engines round it differently: use lengthOf (core/geometry/length.ts).',
        },
      ],
    },
  },
  {
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_' },
      ],
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      'no-var': 'error',
      'prefer-const': 'error',
      eqeqeq: 'error',
    },
  },
);
