import { create, type FactoryFunctionMap, UnitDependencies } from 'mathjs';
import type { UnitConverter } from './units';

// Only the unit part of mathjs: it is the largest thing that the functions need.
const { Unit } = create({ UnitDependencies: UnitDependencies as FactoryFunctionMap });

/** Converts through mathjs; throws where the units measure different things or are not known. */
export const mathjsConverter: UnitConverter = (value, from, to) =>
  new Unit(value, from).toNumber(to);
