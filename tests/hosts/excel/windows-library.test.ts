import { describe } from 'vitest';
import { worksWith } from './with-library';

describe('the library for Excel on Windows', () => worksWith('excel-win32-16.01.debug.js', 'PC'));
