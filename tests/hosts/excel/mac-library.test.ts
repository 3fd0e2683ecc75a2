import { describe } from 'vitest';
import { worksWith } from './with-library';

describe('the library for Excel on a Mac', () => worksWith('excel-mac-16.00.debug.js', 'Mac'));
