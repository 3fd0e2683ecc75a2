/** describe, it, expect and beforeAll as the fast tests use them, collected so that they can be run by name. */
import { chai, JestAsymmetricMatchers, JestChaiExpect, JestExtend } from '@vitest/expect';
import { format } from 'node:util';

for (const plugin of [JestExtend, JestChaiExpect, JestAsymmetricMatchers]) chai.use(plugin);
export const expect = chai.expect;

/** @typedef {{ name: string, hooks: (() => unknown)[], parent?: Suite }} Suite */
/** @typedef {{ id: string, name: string, suite: Suite, body: () => unknown }} Test */

/** @type {Suite} */
let suite = { name: '', hooks: [] };
/** @type {Test[]} */
let tests = [];

const pathOf = ({ name, parent }) => (parent ? [...pathOf(parent), name] : [name]);

/** Begins anew; what is collected from here on is returned by `collected`. */
export function startCollecting() {
  tests = [];
  suite = { name: '', hooks: [] };
}

export const collected = () => tests;

/** Everything up to the next call belongs to this file. */
export function inFile(name) {
  suite = { name, hooks: [] };
}

export function describe(name, body) {
  const parent = suite;
  suite = { name, hooks: [], parent };
  body();
  suite = parent;
}

export function it(name, body) {
  const path = [...pathOf(suite), name].join(' > ');
  tests.push({ id: `${tests.length} ${path}`, name: path, suite, body });
}

export const beforeAll = (hook) => suite.hooks.push(hook);

const each = (one) => (table) => (name, body) => {
  for (const row of table) {
    const args = Array.isArray(row) ? row : [row];
    const places = (name.match(/%[sdifjoO]/g) ?? []).length;
    one(format(name, ...args.slice(0, places)), () => body(...args));
  }
};
describe.each = each(describe);
it.each = each(it);
