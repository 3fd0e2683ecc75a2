import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import officeAddins from 'eslint-plugin-office-addins';
import ts from 'typescript-eslint';

export default ts.config(
  { ignores: ['dist/', 'coverage/', 'node_modules/', '.cache/'] },
  js.configs.recommended,
  ...ts.configs.recommended,
  {
    // The files that a project in .config/types names.
    files: ['src/**/*.ts', 'tests/**/*.ts'],
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/no-array-delete': 'error',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-for-in-array': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/only-throw-error': 'error',
      '@typescript-eslint/require-array-sort-compare': ['error', { ignoreStringArrays: true }],
      '@typescript-eslint/restrict-plus-operands': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
    },
  },
  {
    files: ['src/**/*.ts'],
    rules: { '@typescript-eslint/no-unnecessary-condition': 'error' },
  },
  {
    files: ['src/hosts/excel/**/*.ts', 'src/app/**/*.ts'],
    plugins: { 'office-addins': officeAddins },
    rules: {
      'office-addins/call-sync-before-read': 'error',
      'office-addins/load-object-before-read': 'error',
      'office-addins/no-context-sync-in-loop': 'error',
      'office-addins/no-empty-load': 'error',
      'office-addins/no-office-initialize': 'error',
      'office-addins/test-for-null-using-isNullObject': 'error',
    },
  },
  {
    files: ['**/*.mjs', '**/*.js'],
    languageOptions: {
      globals: { process: 'readonly', console: 'readonly', URL: 'readonly', Buffer: 'readonly' },
    },
  },
  prettier,
);
