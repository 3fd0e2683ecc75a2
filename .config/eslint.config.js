import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import officeAddins from 'eslint-plugin-office-addins';
import ts from 'typescript-eslint';

export default ts.config(
  { ignores: ['dist/', 'coverage/', 'node_modules/'] },
  js.configs.recommended,
  ...ts.configs.recommended,
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
