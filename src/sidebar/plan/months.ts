import { MONTH_NAMES } from '../../core/month-names';

export const monthNames = MONTH_NAMES;

export const monthName = (month: number): string => monthNames[month - 1] ?? '';
